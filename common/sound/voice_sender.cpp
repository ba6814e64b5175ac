#include "common/sound/voice_sender.h"

#include "common/sound/soft_limiter.h"

namespace vh
{

namespace
{
constexpr float kVoiceFade = 1.0F / 240; // 5 ms: no click, and mute is mute
constexpr float kExtrasFade = 1.0F / 960;

float towards(float now, float goal, float step)
{
    return now < goal ? std::min(now + step, goal) : std::max(now - step, goal);
}
} // namespace

VoiceSender::VoiceSender(std::uint32_t stream, const VoiceCoding& coding) : m_encoder(coding), m_stream(stream) {}

void VoiceSender::fill(std::span<const float> samples)
{
    const auto into = std::span(m_frame).subspan(m_filled, samples.size());
    std::ranges::copy(samples, into.begin());
    addExtras(into);
    const float goal = muted() ? 0 : 1;
    for (float& sample : into) {
        m_voiceGain = towards(m_voiceGain, goal, kVoiceFade);
        sample = m_voiceGain > 0 ? softLimited(sample * m_voiceGain) : 0;
    }
    m_filled += samples.size();
}

void VoiceSender::addExtras(std::span<float> samples)
{
    const bool yours = m_yours.load(std::memory_order_relaxed);
    const std::uint32_t strikes = m_strikes.load(std::memory_order_relaxed);
    if (strikes != m_strikesSeen && !yours)
        m_bell.strike();
    m_strikesSeen = strikes;
    const float goal = yours ? 0 : 1;
    if (m_extrasGain == 0 && goal == 0)
        return;
    // In steps of a millisecond: fine enough to fade without a click at these levels.
    for (std::size_t at = 0; at < samples.size(); at += 48) {
        const auto piece = samples.subspan(at, std::min<std::size_t>(48, samples.size() - at));
        m_extrasGain = towards(m_extrasGain, goal, kExtrasFade * static_cast<float>(piece.size()));
        m_bell.mixInto(piece, m_extrasGain);
        m_recording.mixInto(piece, m_extrasGain);
    }
}

std::span<const std::uint8_t> VoiceSender::finishFrame()
{
    const bool silent = std::ranges::all_of(m_frame, [](float sample) { return sample == 0; });
    m_frameStart += kSoundFrame;
    m_filled = 0;
    if (silent && m_voiceGain == 0) {
        if (m_quietSent)
            return {};
        m_quietSent = true;
    } else {
        if (m_quietSent)
            m_encoder.restart();
        m_quietSent = false;
    }
    return m_encoder.encode(m_frame);
}

void VoiceSender::passOver(std::uint64_t samples)
{
    // The count stands at whole frames from there on; what was begun is lost with the device.
    m_frameStart += (m_filled + samples + kSoundFrame / 2) / kSoundFrame * kSoundFrame;
    m_filled = 0;
    m_voiceGain = 0;
    m_quietSent = true;
}

} // namespace vh
