#pragma once
// A thousand homes in a class that is under way, and a helper who lets every line through as soon as it is there to be
// read: how long after its 3 s each home shows it. A process of its own: prints `result` lines (relay_process.h).
#include <cstdint>
#include <string>

namespace vh::bench
{

struct LetThroughPlan {
    std::uint16_t port = 0;
    std::string group; ///< hexadecimal
    std::size_t homes = 1000;
    double frames = 50;  ///< the leader's sound, a second
    double readings = 4; ///< of each home, a second
    int lines = 60;
    double linesPerSecond = 4;
};

/// Throws std::runtime_error. Prints `result p50= p99= max= shown= busy=`: ms, homes times lines, per cent of its core.
int runLetThroughHomes(const LetThroughPlan& plan);

} // namespace vh::bench
