#pragma once
// Mono float, full scale 1.0, to a device's own sample format: every channel gets the same; what lies beyond full scale
// is cut there. Any thread; allocates nothing.
#include <QAudioFormat>

#include <cstddef>
#include <span>

namespace vh::sound
{

/// As many whole frames as fit into `bytes`; how many there were.
std::size_t fromMono(std::span<const float> mono, const QAudioFormat& format, std::span<std::byte> bytes) noexcept;

} // namespace vh::sound
