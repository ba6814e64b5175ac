#pragma once
// The small steps that class_moves, class_press and class_lead share. Not for others. Each changes a copy in the hand
// of its caller.
#include "common/live/class_state.h"

namespace vh::step
{

/// `now`, or the latest moment the state already knows of: time never runs backwards in a class.
[[nodiscard]] Instant notBefore(const ClassState& state, Instant now);
/// Stops the clock in this turn.
void hold(ClassState& state, Phase phase, Instant at);
/// A sign of life of the holder.
void seen(ClassState& state, Instant at);

} // namespace vh::step
