#pragma once
// A server as the bench sees it: started, pinned to a core, asked what it has used and done. Four kinds: "floor",
// "net", "net-tls" (relay_servers.h) and the real voicehall-relay, "relay" and "relay-tls", on a copy of the seed.
// Processor and memory are read from outside, in the same way for all. Throws std::runtime_error.
#include "tests/bench/relay_process.h"
#include "tests/bench/relay_seed.h"

#include <memory>
#include <optional>

namespace vh::bench
{

class UnderLoad
{
public:
    UnderLoad(const std::string& kind, const Seed& seed, int core);

    [[nodiscard]] std::uint16_t port() const { return m_port; }
    [[nodiscard]] const std::string& pin() const { return m_pin; }     ///< hexadecimal, or -
    [[nodiscard]] const std::string& group() const { return m_group; } ///< hexadecimal, or -

    /// cpu (ns, all threads), rss (KiB), frames, sends, readings, skipped, open.
    [[nodiscard]] std::map<std::string, double> now();

private:
    void startRelay(const Seed& seed, bool tls, int core);
    [[nodiscard]] std::map<std::string, double> counted();

    std::optional<Folder> m_folder; ///< outlives the process
    std::optional<Process> m_process;
    std::uint16_t m_port = 0;
    std::uint16_t m_opsPort = 0; ///< of the relay
    std::string m_pin = "-";
    std::string m_group = "-";
};

} // namespace vh::bench
