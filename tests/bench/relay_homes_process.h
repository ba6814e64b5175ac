#pragma once
// The homes as a process of their own: what the bench asks of it, and its main(). It says `led` once the leader is in
// and the class runs, waits for a line, brings the homes in (`joined`), begins (`begin`), ends (`end`), and gives one
// line of `result`; then it stays, silent and connected, until its input ends.
#include "tests/bench/relay_process.h"

#include <cstddef>
#include <cstdint>
#include <string>

namespace vh::bench
{

struct HomesPlan {
    std::uint16_t port = 0;
    std::string pin = "-";   ///< hexadecimal: TLS; -: plain
    std::string group = "-"; ///< the relay's protocol, into this group; -: the bench's own servers
    std::size_t homes = 1000;
    double frames = 50;
    double readings = 4;
    double places = 0;
    double seconds = 1.5;
    double stall = 0;      ///< seconds that the first home does not read
    int receiveBuffer = 0; ///< SO_RCVBUF of the homes; 0: the kernel's own
};

/// Throws std::runtime_error.
Process startHomes(const HomesPlan& plan, int core);
/// The process itself: what stands behind --homes.
int runHomes(char** arguments);
inline constexpr int kHomesArguments = 10;

} // namespace vh::bench
