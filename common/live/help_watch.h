#pragma once
// How long a call for help may wait: when it fills the leader's screen, and when it rings. Pure functions of the call
// and the relay's time, the same on every screen. The 30 s are the promise of docs/calling.md; the distances between
// rings are chosen so that one is missed by nobody and does not drown a class. Any thread.
#include "common/base/clock.h"

namespace vh
{

/// Unanswered for so long, it fills the leader's screen.
inline constexpr Millis kCallFillsAfter{30'000};

constexpr bool fillsTheScreen(Instant calledAt, bool taken, Instant now)
{
    return !taken && now - calledAt >= kCallFillsAfter;
}

/// How often it has rung by now, while nobody has it: at once; then for a leader, who is speaking, only from
/// kCallFillsAfter on, softly each 6 s; for helpers each 10 s.
enum class RingsFor : std::uint8_t { helper, leader };
constexpr std::int64_t ringsBy(RingsFor who, Instant calledAt, Instant now)
{
    const Millis waited = now - calledAt;
    if (waited < Millis{0})
        return 1; // clocks differ by a little
    if (who == RingsFor::helper)
        return 1 + waited / Millis{10'000};
    return waited < kCallFillsAfter ? 1 : 2 + (waited - kCallFillsAfter) / Millis{6'000};
}

} // namespace vh
