#pragma once
// How far another clock is from ours, from question and answer: offset = ((T2 - T1) + (T3 - T4)) / 2, delay =
// (T4 - T1) - (T3 - T2) (RFC 5905 section 8). Of the last eight exchanges the one with the least delay counts; its
// error is at most half its delay. Value; the times are handed in.
#include "common/base/clock.h"

#include <algorithm>
#include <array>
#include <cstddef>

namespace vh
{

class ClockOffset
{
public:
    static constexpr std::size_t kKept = 8;

    /// T1 asked (our clock), T2 received and T3 answered (the other clock), T4 back (our clock). Impossible exchanges
    /// (back before asked, answered before received) are not taken.
    void add(Instant asked, Instant received, Instant answered, Instant back)
    {
        if (back < asked || answered < received)
            return;
        const Millis delay = std::max(Millis{0}, (back - asked) - (answered - received));
        m_samples[m_next++ % kKept] = {((received - asked) + (answered - back)) / 2, delay};
    }
    /// A first idea, from a message that carries the other's time: good until the first exchange.
    void guess(Instant theirs, Instant ours) { m_guess = theirs - ours; }

    [[nodiscard]] bool isEmpty() const { return m_next == 0; }
    /// To be added to our time to get theirs.
    [[nodiscard]] Millis offset() const { return isEmpty() ? m_guess : best().offset; }
    [[nodiscard]] Millis delay() const { return isEmpty() ? Millis{0} : best().delay; }

private:
    struct Sample {
        Millis offset{0};
        Millis delay{0};
    };
    [[nodiscard]] const Sample& best() const
    {
        const auto end = m_samples.begin() + static_cast<std::ptrdiff_t>(std::min(m_next, kKept));
        return *std::min_element(m_samples.begin(), end,
                                 [](const Sample& a, const Sample& b) { return a.delay < b.delay; });
    }

    std::array<Sample, kKept> m_samples{};
    std::size_t m_next = 0;
    Millis m_guess{0};
};

} // namespace vh
