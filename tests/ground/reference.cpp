#include "tests/ground/reference.h"

#include "tests/ground/voices.h"

#include <webrtc/modules/audio_processing/include/audio_processing.h>
#include <webrtc/modules/interface/module_common_types.h>

#include <algorithm>
#include <cmath>
#include <memory>

namespace vh::ground
{

std::vector<bool> referenceVoice(std::span<const float> samples, int setting)
{
    const std::unique_ptr<webrtc::AudioProcessing> processing(webrtc::AudioProcessing::Create());
    if (!processing)
        return {};
    webrtc::VoiceDetection& detection = *processing->voice_detection();
    detection.set_likelihood(static_cast<webrtc::VoiceDetection::Likelihood>(setting));
    detection.set_frame_size_ms(10);
    if (detection.Enable(true) != webrtc::AudioProcessing::kNoError)
        return {};
    constexpr std::size_t kFrame = kVoiceRateHz / 100;
    webrtc::AudioFrame frame;
    frame.sample_rate_hz_ = kVoiceRateHz;
    frame.samples_per_channel_ = kFrame;
    frame.num_channels_ = 1;
    std::vector<bool> voiced;
    for (std::size_t at = 0; at + kFrame <= samples.size(); at += kFrame) {
        for (std::size_t i = 0; i < kFrame; ++i)
            frame.data_[i] =
                static_cast<std::int16_t>(std::lround(std::clamp(samples[at + i], -1.0F, 1.0F) * 32767.0F));
        if (processing->ProcessStream(&frame) != webrtc::AudioProcessing::kNoError)
            return {};
        voiced.push_back(detection.stream_has_voice());
    }
    return voiced;
}

} // namespace vh::ground
