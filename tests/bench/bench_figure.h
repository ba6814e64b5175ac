#pragma once
// How a bench says what it found: `figure NAME VALUE UNIT TARGET ok|short`, one line a figure, medians with their
// spread as a comment line. Thread: one.
#include <algorithm>
#include <cstdio>
#include <string>
#include <vector>

namespace vh::bench
{

struct Spread {
    double median = 0;
    double least = 0;
    double most = 0;
};

inline Spread spreadOf(std::vector<double> values)
{
    if (values.empty())
        return {};
    std::sort(values.begin(), values.end());
    const auto middle = values.size() / 2;
    const auto median = values.size() % 2 == 1 ? values[middle] : (values[middle - 1] + values[middle]) / 2;
    return {median, values.front(), values.back()};
}

/// Collects what fell short, for the exit code.
class Figures
{
public:
    void reported(const char* name, double value, const char* unit)
    {
        std::printf("figure %s %.4g %s - ok\n", name, value, unit);
        std::fflush(stdout);
    }
    void atMost(const char* name, double value, const char* unit, double limit)
    {
        print(name, value, unit, "<=", limit, value <= limit);
    }
    void atLeast(const char* name, double value, const char* unit, double limit)
    {
        print(name, value, unit, ">=", limit, value >= limit);
    }
    static void spread(const char* name, const Spread& spread, std::size_t runs)
    {
        std::printf("# %s: median %.4g of %zu, from %.4g to %.4g\n", name, spread.median, runs, spread.least,
                    spread.most);
    }
    [[nodiscard]] int exitCode() const { return m_short ? 1 : 0; }

private:
    void print(const char* name, double value, const char* unit, const char* sign, double limit, bool reached)
    {
        std::printf("figure %s %.4g %s %s%g %s\n", name, value, unit, sign, limit, reached ? "ok" : "short");
        std::fflush(stdout);
        m_short = m_short || !reached;
    }
    bool m_short = false;
};

} // namespace vh::bench
