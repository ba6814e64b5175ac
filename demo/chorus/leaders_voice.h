#pragma once
// What a leader says: in `listen` and `withMe` turns the step's text, as it is to be said, in the time of the turn; in
// all others nothing. For the chorus's own leader, and as a sound file for the microphone of a leader's app. Pure; any
// thread; costs some milliseconds a turn.
#include "common/live/place.h"
#include "common/script/script.h"

#include <vector>

namespace vh::chorus
{

/// 48 kHz mono, at most as long as the turn; empty where she is silent.
[[nodiscard]] std::vector<float> leadersTurn(const ClassScript& script, const Place& place);

/// The class from its first turn to its last, as the clock would lead through it.
[[nodiscard]] std::vector<float> leadersClass(const ClassScript& script);

} // namespace vh::chorus
