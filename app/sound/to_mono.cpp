#include "app/sound/to_mono.h"

#include <algorithm>
#include <cstdint>
#include <cstring>

namespace vh::sound
{

namespace
{

template <class Sample>
Sample sampleAt(std::span<const std::byte> bytes, std::size_t index) noexcept
{
    Sample sample;
    std::memcpy(&sample, bytes.data() + index * sizeof(Sample), sizeof(Sample));
    return sample;
}

template <class Sample, class Scale>
std::size_t average(std::span<const std::byte> bytes, std::size_t channels, std::span<float> into, Scale scale) noexcept
{
    const std::size_t frames = std::min(bytes.size() / (sizeof(Sample) * channels), into.size());
    for (std::size_t frame = 0; frame < frames; ++frame) {
        float sum = 0;
        for (std::size_t channel = 0; channel < channels; ++channel)
            sum += scale(sampleAt<Sample>(bytes, frame * channels + channel));
        into[frame] = sum / static_cast<float>(channels);
    }
    return frames;
}

} // namespace

std::size_t toMono(std::span<const std::byte> bytes, const QAudioFormat& format, std::span<float> into) noexcept
{
    if (format.channelCount() < 1)
        return 0;
    const auto channels = static_cast<std::size_t>(format.channelCount());
    switch (format.sampleFormat()) {
    case QAudioFormat::Float:
        return average<float>(bytes, channels, into, [](float s) { return s; });
    case QAudioFormat::Int16:
        return average<std::int16_t>(bytes, channels, into,
                                     [](std::int16_t s) { return static_cast<float>(s) / 32768.0F; });
    case QAudioFormat::Int32:
        return average<std::int32_t>(bytes, channels, into,
                                     [](std::int32_t s) { return static_cast<float>(s) / 2147483648.0F; });
    case QAudioFormat::UInt8:
        return average<std::uint8_t>(bytes, channels, into,
                                     [](std::uint8_t s) { return (static_cast<float>(s) - 128.0F) / 128.0F; });
    default:
        return 0;
    }
}

} // namespace vh::sound
