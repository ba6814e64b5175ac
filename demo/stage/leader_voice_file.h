#pragma once
// What the microphone of a leader hears who leads a class: the script's words in `listen` and `withMe` turns, spoken by
// the synthetic voice, and silence in the others; the beginning of the class, over and over. For the demo: the leader's
// own app takes the file for its microphone and sends it like any voice. 48 kHz mono, 16 bits.
#include "common/script/script.h"

#include <filesystem>

namespace vh::stage
{

/// False when the file could not be written.
[[nodiscard]] bool writeLeaderVoice(const std::filesystem::path& file, const ClassScript& script, double seconds);

} // namespace vh::stage
