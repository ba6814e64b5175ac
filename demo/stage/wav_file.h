#pragma once
// A sound file for the microphone of a program that is shown or tested. 48 kHz mono.
#include <filesystem>
#include <span>

namespace vh::stage
{

enum class WavKind { floats, sixteenBits };

/// `samples` over and over until there are `seconds` of it; the last round may be cut. False when it could not be
/// written, or there are no samples.
[[nodiscard]] bool writeWav(const std::filesystem::path& file, std::span<const float> samples, double seconds,
                            WavKind kind);

} // namespace vh::stage
