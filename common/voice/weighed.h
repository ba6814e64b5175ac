#pragma once
// A-weighted levels of whole sounds. Pure; any thread.
#include "common/voice/voice.h"

#include <span>

namespace vh::voice
{

/// A-weighted Leq of everything, dB re full scale.
[[nodiscard]] double weighedDb(std::span<const float> samples);
/// The same over [begin, end) of the labels of this kind only; -120 when there are none.
[[nodiscard]] double weighedDb(std::span<const float> samples, const std::vector<Label>& labels, SoundKind kind);

} // namespace vh::voice
