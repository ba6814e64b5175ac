#include "app/sound/from_mono.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstring>

namespace vh::sound
{

namespace
{

template <class Sample, class Scale>
std::size_t spread(std::span<const float> mono, std::size_t channels, std::span<std::byte> bytes, Scale scale) noexcept
{
    const std::size_t frames = std::min(bytes.size() / (sizeof(Sample) * channels), mono.size());
    std::byte* at = bytes.data();
    for (std::size_t frame = 0; frame < frames; ++frame) {
        const Sample sample = scale(std::clamp(mono[frame], -1.0F, 1.0F));
        for (std::size_t channel = 0; channel < channels; ++channel, at += sizeof(Sample))
            std::memcpy(at, &sample, sizeof(Sample));
    }
    return frames;
}

} // namespace

std::size_t fromMono(std::span<const float> mono, const QAudioFormat& format, std::span<std::byte> bytes) noexcept
{
    if (format.channelCount() < 1)
        return 0;
    const auto channels = static_cast<std::size_t>(format.channelCount());
    switch (format.sampleFormat()) {
    case QAudioFormat::Float:
        return spread<float>(mono, channels, bytes, [](float s) { return s; });
    case QAudioFormat::Int16:
        return spread<std::int16_t>(mono, channels, bytes,
                                    [](float s) { return static_cast<std::int16_t>(std::lround(s * 32767.0F)); });
    case QAudioFormat::Int32:
        return spread<std::int32_t>(mono, channels, bytes, [](float s) {
            return static_cast<std::int32_t>(std::llround(static_cast<double>(s) * 2147483647.0));
        });
    case QAudioFormat::UInt8:
        return spread<std::uint8_t>(mono, channels, bytes,
                                    [](float s) { return static_cast<std::uint8_t>(std::lround(s * 127.0F) + 128); });
    default:
        return 0;
    }
}

} // namespace vh::sound
