#pragma once
// Readings that nobody measured, from a table: (character, where the class is, time gone in the turn, seed) and nothing
// else. For load: thousands of homes, none of which has to speak. Levels are whole tenths of a dB(A) over the person's
// usual, as everywhere; cumulative within a turn, as real readings are. Pure; any thread.
#include "common/live/judge.h"
#include "demo/chorus/characters.h"

namespace vh::chorus
{

[[nodiscard]] Reading cannedReading(Character character, const Moment& moment, std::uint64_t seed);
[[nodiscard]] Surroundings cannedSurroundings(Character character, const Moment& moment, std::uint64_t seed);

} // namespace vh::chorus
