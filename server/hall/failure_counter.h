#pragma once
// Slows down guessing: failures are counted per key (an address and what was tried there), and ten within ten minutes
// close that door for ten minutes. Devices that the relay knows never ask here. The memory is bounded: when full, the
// oldest key is forgotten. Thread: one.
#include "common/base/clock.h"

#include <cstddef>
#include <string>
#include <unordered_map>

namespace vh::hall
{

class FailureCounter
{
public:
    static constexpr int kMostFailures = 10;
    static constexpr int kMostPending = 200;
    static constexpr Millis kWindow = std::chrono::minutes{10};

    explicit FailureCounter(std::size_t mostKeys = 10'000) : m_mostKeys(mostKeys) {}

    /// True while `key` has had its failures.
    [[nodiscard]] bool isClosed(const std::string& key, Instant now) const;
    void failed(const std::string& key, Instant now);
    /// Something is being looked into that may turn out to be a guess: it counts from now on, so that many at once get
    /// no further than one after the other. A room full of people who are all right is not held up.
    void looksInto(const std::string& key, Instant now);
    void wasRight(const std::string& key);
    void wasWrong(const std::string& key, Instant now);

private:
    struct Count;
    Count& countOf(const std::string& key, Instant now);

    struct Count {
        int failures = 0;
        int pending = 0; ///< being looked into
        Instant since{};
    };
    std::size_t m_mostKeys;
    std::unordered_map<std::string, Count> m_counts;
};

/// What failures are counted by: an IPv4 address, or the /64 that one household or server gets in IPv6.
std::string countedAddress(const std::string& address);

/// Whether a counted address stands for one household or room. Not so behind a proxy that does not say who asks: then
/// everybody has the proxy's own, on this machine.
bool isOneHousehold(const std::string& counted);

} // namespace vh::hall
