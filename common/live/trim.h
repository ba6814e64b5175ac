#pragma once
// Trim to fit: which of the coming steps to leave out so that a class that is behind ends on time. Only steps that the
// script lets go (Step::optionalDearness), never the present one or any before it. Least dear first, and of those as
// few as are needed: what a dearer step has made unnecessary stays in. A pure function; what it proposes is done by a
// press (CommandKind::leaveOut). Any thread.
#include "common/live/class_moves.h"

namespace vh
{

/// Within this of the plan a class is on time.
inline constexpr Millis kOnTime{30'000};

struct Trim {
    LeftOut steps;          ///< besides those that are left out already; in the order of the class
    Millis saved{0};        ///< the planned length of these
    Millis behind{0};       ///< behind the plan as it is now; negative: early
    bool endsOnTime = true; ///< with these left out. False: all that may go is proposed, and it is not enough
    [[nodiscard]] Millis stillBehind() const { return behind - saved; }
    friend bool operator==(const Trim&, const Trim&) = default;
};

/// Nothing to leave out where the class is on time, or has not begun.
[[nodiscard]] Trim trimToFit(const ClassScript& script, const ClassState& state, Instant now);

} // namespace vh
