#include "common/script/nearest.h"

#include <algorithm>
#include <numeric>
#include <vector>

namespace vh
{

namespace
{

char lower(char c)
{
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

std::size_t distance(std::string_view a, std::string_view b)
{
    std::vector<std::size_t> row(b.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 0; i < a.size(); ++i) {
        std::size_t diagonal = row[0];
        row[0] = i + 1;
        for (std::size_t j = 0; j < b.size(); ++j) {
            const std::size_t change = diagonal + (lower(a[i]) == lower(b[j]) ? 0 : 1);
            diagonal = row[j + 1];
            row[j + 1] = std::min({change, row[j] + 1, row[j + 1] + 1});
        }
    }
    return row.back();
}

} // namespace

std::string_view nearestOf(std::string_view name, std::span<const std::string_view> candidates)
{
    constexpr std::size_t kLongestWorthComparing = 40;
    if (name.size() > kLongestWorthComparing)
        return {};
    std::string_view nearest;
    std::size_t least = kLongestWorthComparing;
    for (const std::string_view candidate : candidates) {
        const std::size_t far = distance(name, candidate);
        if (far < least && far * 2 <= candidate.size()) {
            nearest = candidate;
            least = far;
        }
    }
    return nearest;
}

std::string nameRemedy(std::string_view name, std::span<const std::string_view> candidates)
{
    if (const auto nearest = nearestOf(name, candidates); !nearest.empty())
        return "Perhaps \"" + std::string(nearest) + "\" is meant.";
    std::string list = "Known here: ";
    for (const std::string_view candidate : candidates)
        list.append(candidate == candidates.front() ? "" : ", ").append(candidate);
    return list + ".";
}

} // namespace vh
