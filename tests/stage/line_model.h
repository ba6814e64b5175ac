#pragma once
// A line between two programs as the internet has them, for simulated time and for the real proxy alike: when does what
// was sent arrive? Deterministic: the same traits, seed and sending times give the same arrivals. Times in ms since the
// line began. Thread: one.
//   Reliable (TCP): nothing is lost; a segment that had to be sent again holds all behind it, then they come at once.
//   Datagrams: the same segments are lost for good, the others come in time.
// A stall: for its length nothing arrives at all (reliable: all afterwards at once; datagrams: lost).
#include "common/voice/random.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace vh::stage
{

struct LineTraits {
    double oneWayMs = 40;
    double jitterMs = 0;  ///< evenly spread on top of it, never out of order
    double heldShare = 0; ///< of segments that have to be sent again
    double heldMs = 300;  ///< how long that takes
    double stallMs = 0;   ///< once in stallEveryMs, first after half of it
    double stallEveryMs = 60'000;
    bool datagrams = false;
};

/// The line that the sound is promised for: RTT 80 ms, 2 % held for 300 ms, a stall of 3 s a minute.
inline LineTraits hardLine()
{
    return {.heldShare = 0.02, .stallMs = 3'000};
}

class LineModel
{
public:
    LineModel(const LineTraits& traits, std::uint64_t seed) : m_traits(traits), m_random(seed) {}

    /// Call in order of sending. Nothing: lost.
    std::optional<double> arrivalOf(double sentMs)
    {
        const bool held = m_random.unit() < m_traits.heldShare;
        double at = sentMs + m_traits.oneWayMs + m_traits.jitterMs * m_random.unit();
        if (m_traits.datagrams) {
            if (held || stallEnd(at))
                return std::nullopt;
        } else if (held) {
            at += m_traits.heldMs;
        }
        at = stallEnd(at).value_or(at);
        m_last = std::max(m_last, at);
        return m_last;
    }
    /// When the stall that reigns at this time ends.
    [[nodiscard]] std::optional<double> stallEnd(double atMs) const
    {
        if (m_traits.stallMs <= 0)
            return std::nullopt;
        const double since = std::fmod(atMs + m_traits.stallEveryMs / 2, m_traits.stallEveryMs);
        return since < m_traits.stallMs ? std::optional(atMs - since + m_traits.stallMs) : std::nullopt;
    }

private:
    LineTraits m_traits;
    voice::Random m_random;
    double m_last = 0;
};

} // namespace vh::stage
