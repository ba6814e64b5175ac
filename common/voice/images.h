#pragma once
// The image sources of a rectangular room. Internal to rooms.
#include "common/voice/room.h"

namespace vh::voice
{

/// The same reflection at every wall that gives this reverberation time by Eyring's formula: pressure, 0..1.
/// Source: Eyring 1930, J Acoust Soc Am 1:217; 24 ln 10 / c = 0.161 s/m.
[[nodiscard]] double eyringReflection(const Room& room);
/// The raw response for a given reflection coefficient, `length` samples, before the high-pass.
[[nodiscard]] std::vector<float> imageResponse(const Room& room, double reflection, std::size_t length);
/// Reverberation time by the backward integral, from -5 to -25 dB, extrapolated to 60 dB (T20 of ISO 3382-2).
[[nodiscard]] double decaySeconds(const std::vector<float>& response);

} // namespace vh::voice
