// From the moment that a line's 3 s are over to its being shown in each of 1,000 homes: the real voicehall-relay on one
// core, its homes and the helper on the other; in a class that is silent, and in one under way (the leader's sound to
// everybody, readings from everybody). The clock of both is this machine's. A run whose homes kept their core 90 % busy
// says so. `bench_let_through LINES` (60).
#include "tests/bench/bench_figure.h"
#include "tests/bench/let_through_homes.h"
#include "tests/bench/relay_under_load.h"

#include <cstring>
#include <stdexcept>

using namespace vh::bench;

namespace
{

constexpr int kServerCore = 0;
constexpr int kHomesCore = 1;
constexpr std::size_t kHomes = 1000;

void measure(const Seed& seed, const char* name, bool underWay, int lines, Figures& figures)
{
    UnderLoad relay("relay", seed, kServerCore);
    Process homes("/proc/self/exe",
                  {"--homes", std::to_string(relay.port()), relay.group(), underWay ? "1" : "0", std::to_string(lines)},
                  kHomesCore);
    const auto heard = homes.waitFor("result");
    std::printf("# %s: p50 %.1f, max %.1f ms, homes' core %.0f %% busy%s\n", name, heard.at("p50"), heard.at("max"),
                heard.at("busy"), heard.at("busy") >= 90 ? ": VOID" : "");
    if (heard.at("ended") > 0)
        throw std::runtime_error("lines have ended");
    figures.atMost((std::string(name) + "_p99").c_str(), heard.at("p99"), "ms", 150);
    figures.atMost((std::string(name) + "_missing").c_str(), lines * static_cast<double>(kHomes) - heard.at("shown"),
                   "lines", 0);
}

int start(int count, char** arguments)
{
    if (count == 6 && std::strcmp(arguments[1], "--homes") == 0) {
        LetThroughPlan plan;
        plan.port = static_cast<std::uint16_t>(std::stoul(arguments[2]));
        plan.group = arguments[3];
        if (std::strcmp(arguments[4], "1") != 0)
            plan.frames = plan.readings = 0;
        plan.lines = std::stoi(arguments[5]);
        plan.homes = kHomes;
        return runLetThroughHomes(plan);
    }
    const int lines = count > 1 ? std::stoi(arguments[1]) : 60;
    const Seed seed(kHomes);
    Figures figures;
    measure(seed, "let_through_1000", false, lines, figures);
    measure(seed, "let_through_1000_in_class", true, lines, figures);
    return figures.exitCode();
}

} // namespace

int main(int count, char** arguments)
{
    try {
        return start(count, arguments);
    } catch (const std::exception& error) {
        return std::fprintf(stderr, "bench_let_through: %s\n", error.what()), 1;
    }
}
