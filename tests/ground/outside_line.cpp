// Automatic gain and noise suppression as computers really have them: webrtc-audio-processing 0.3 (Debian).
#include "tests/ground/altered.h"

#include <webrtc/modules/audio_processing/include/audio_processing.h>
#include <webrtc/modules/interface/module_common_types.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace vh::ground
{

std::unique_ptr<Line> outsideLine(bool gain, double voiceDbfsA, int rateHz, Random& random);

namespace
{

class OutsideLine : public Line
{
public:
    OutsideLine(bool gain, double voiceDbfsA, int rateHz, Random& random)
        : m_processing(webrtc::AudioProcessing::Create()),
          m_before(std::pow(10.0, (random.between(-36, -16) - voiceDbfsA) / 20))
    {
        if (!m_processing)
            throw std::runtime_error("webrtc-audio-processing does not start");
        if (gain) {
            webrtc::GainControl& control = *m_processing->gain_control();
            control.set_mode(random.chance(0.5) ? webrtc::GainControl::kAdaptiveDigital
                                                : webrtc::GainControl::kFixedDigital);
            control.set_target_level_dbfs(static_cast<int>(random.between(3, 12)));
            control.set_compression_gain_db(static_cast<int>(random.between(9, 30)));
            control.enable_limiter(random.chance(0.8));
            control.Enable(true);
        } else {
            webrtc::NoiseSuppression& suppression = *m_processing->noise_suppression();
            suppression.set_level(static_cast<webrtc::NoiseSuppression::Level>(random.below(4)));
            suppression.Enable(true);
        }
        m_frame.sample_rate_hz_ = rateHz;
        m_frame.samples_per_channel_ = static_cast<std::size_t>(rateHz / 100);
        m_frame.num_channels_ = 1;
    }
    /// Whole frames of 10 ms only.
    void pass(std::span<float> samples) override
    {
        const std::size_t size = m_frame.samples_per_channel_;
        for (std::size_t at = 0; at + size <= samples.size(); at += size) {
            for (std::size_t i = 0; i < size; ++i)
                m_frame.data_[i] = static_cast<std::int16_t>(
                    std::lround(std::clamp(m_before * static_cast<double>(samples[at + i]), -1.0, 1.0) * 32767));
            m_processing->ProcessStream(&m_frame);
            for (std::size_t i = 0; i < size; ++i)
                samples[at + i] = static_cast<float>(m_frame.data_[i] / 32768.0 / m_before);
        }
    }

private:
    std::unique_ptr<webrtc::AudioProcessing> m_processing;
    webrtc::AudioFrame m_frame;
    double m_before; ///< the input volume: voices come at -36 to -16 dB, whatever they are here
};

} // namespace

std::unique_ptr<Line> outsideLine(bool gain, double voiceDbfsA, int rateHz, Random& random)
{
    return std::make_unique<OutsideLine>(gain, voiceDbfsA, rateHz, random);
}

} // namespace vh::ground
