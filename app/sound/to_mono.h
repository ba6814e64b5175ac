#pragma once
// A device's own sample format to mono float, full scale 1.0: channels are averaged, as a loudspeaker pair would be
// heard. Any thread; allocates nothing.
#include <QAudioFormat>

#include <cstddef>
#include <span>

namespace vh::sound
{

/// Whole frames of `bytes` into the front of `into`, as many as fit; how many there were.
std::size_t toMono(std::span<const std::byte> bytes, const QAudioFormat& format, std::span<float> into) noexcept;

} // namespace vh::sound
