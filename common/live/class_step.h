#pragma once
// The small steps that class_moves, class_press and class_lead share. Not for others. Each changes a copy in the hand
// of its caller.
#include "common/live/class_moves.h"

namespace vh::step
{

/// `now`, or the latest moment the state already knows of: time never runs backwards in a class.
[[nodiscard]] Instant notBefore(const ClassState& state, Instant now);
/// Stops the clock in this turn.
void hold(ClassState& state, Phase phase, Instant at);
/// A sign of life of the holder.
void seen(ClassState& state, Instant at);
/// To the start of this turn, as by a press; the clock runs.
void moveTo(const ClassScript& script, ClassState& state, const Place& place, Instant at);

// The presses that change what is planned (class_changes.cpp). Each changes the state only if it is not refused.
[[nodiscard]] Refusal jump(const ClassScript& script, ClassState& state, const Command& command, Instant at);
/// `seen`: where the class was when she pressed; `inReach`: it is still in that turn, or has only just left it.
[[nodiscard]] Refusal stretch(const ClassScript& script, ClassState& state, const Command& command, const Place& seen,
                              bool inReach, Instant at);
[[nodiscard]] Refusal leaveOut(const ClassScript& script, ClassState& state, const Command& command);

} // namespace vh::step
