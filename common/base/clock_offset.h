#pragma once
// How far another clock is ahead of ours, from questions and answers over a line: of the last eight exchanges the one
// with the shortest way there and back is believed, because waiting in queues only ever makes it longer. The error is
// at most half of that delay. Plain values; any thread.
// Source: RFC 5905 section 8 (offset and delay) and section 10 (the clock filter: eight samples, lowest delay first).
#include <algorithm>
#include <array>
#include <chrono>
#include <cstddef>
#include <optional>

namespace vh
{

/// One question and its answer. Moments since any beginning: `sent` and `arrived` by our clock, the others by theirs.
struct ClockExchange {
    using Moment = std::chrono::nanoseconds;
    Moment sent{0};     ///< T1: the question left
    Moment received{0}; ///< T2: it was there
    Moment answered{0}; ///< T3: the answer left
    Moment arrived{0};  ///< T4: it was here

    /// Theirs minus ours.
    [[nodiscard]] constexpr Moment offset() const { return ((received - sent) + (answered - arrived)) / 2; }
    /// On the way, there and back. Coarse clocks can make it seem less than nothing.
    [[nodiscard]] constexpr Moment delay() const { return (arrived - sent) - (answered - received); }
};

class ClockOffset
{
public:
    static constexpr std::size_t kKept = 8;

    void add(const ClockExchange& exchange) { m_last[m_count++ % kKept] = exchange; }
    /// Another line, another way: what the old one said no longer counts.
    void forget() { m_count = 0; }

    /// The exchange that is believed; of equals, the newest. Nothing before the first.
    [[nodiscard]] std::optional<ClockExchange> best() const
    {
        std::optional<ClockExchange> best;
        const std::size_t kept = std::min(m_count, kKept);
        for (std::size_t back = 1; back <= kept; ++back) {
            const ClockExchange& each = m_last[(m_count - back) % kKept];
            if (!best || each.delay() < best->delay())
                best = each;
        }
        return best;
    }

private:
    std::array<ClockExchange, kKept> m_last{};
    std::size_t m_count = 0;
};

} // namespace vh
