#include "app/sound/audio_thread.h"

#include "common/signal/resampler.h"

namespace vh::sound
{

std::optional<QAudioFormat> usableFormat(const QAudioDevice& device, int rateHz)
{
    QAudioFormat format;
    format.setSampleRate(rateHz);
    format.setChannelCount(1);
    format.setSampleFormat(QAudioFormat::Float);
    if (!device.isFormatSupported(format))
        format = device.preferredFormat();
    const bool usable = format.isValid() && format.sampleRate() >= Resampler::kLowestRateHz &&
                        format.sampleRate() <= Resampler::kHighestRateHz;
    return usable ? std::optional(format) : std::nullopt;
}

} // namespace vh::sound
