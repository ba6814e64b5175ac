#include "app/join/mic_check.h"

#include <algorithm>
#include <cmath>

namespace vh::join
{

namespace
{
float dbOf(double meanSquare)
{
    return meanSquare > 1e-12 ? static_cast<float>(10 * std::log10(meanSquare)) : -120.0F;
}
} // namespace

void MicCheck::add(const VoiceFrame& frame)
{
    if (m_stage == Stage::done)
        return;
    m_stageMs += VoiceFrame::kMilliseconds;
    if (frame.blank == Blank::noSignal)
        m_silentMs += VoiceFrame::kMilliseconds;
    if (m_stage == Stage::room) {
        // Somebody who speaks now is not the room.
        if (!frame.voiced) {
            m_roomEnergy += frame.meanSquareA;
            ++m_roomFrames;
        }
        if (m_stageMs >= kRoomMs)
            speakNow();
        return;
    }
    if (frame.blank == Blank::clipping)
        m_clippedMs += VoiceFrame::kMilliseconds;
    if (frame.voiced) {
        m_energy += frame.meanSquareA;
        m_voicedMs += VoiceFrame::kMilliseconds;
        m_allVoicedMs += VoiceFrame::kMilliseconds;
    }
    if (m_voicedMs >= kReadingMs) {
        const double frames = m_voicedMs / VoiceFrame::kMilliseconds;
        m_level.addReading(dbOf(m_energy / frames), Millis{m_voicedMs}, true);
        m_energy = 0;
        m_voicedMs = 0;
    }
    if (m_level.value(kVoiceNeeded) || m_stageMs >= kSpeakAtMostMs)
        conclude();
}

void MicCheck::speakNow()
{
    if (m_stage != Stage::room)
        return;
    m_roomDbfsA = dbOf(m_roomEnergy / std::max(1U, m_roomFrames));
    m_stage = Stage::speak;
    m_stageMs = 0;
    m_silentMs = 0;
}

float MicCheck::progress() const
{
    if (m_stage == Stage::room)
        return static_cast<float>(m_stageMs) / kRoomMs;
    const auto needed = static_cast<float>(kReadingMs + kVoiceNeeded.count());
    return m_stage == Stage::done ? 1.0F : std::min(1.0F, static_cast<float>(m_allVoicedMs) / needed);
}

void MicCheck::conclude()
{
    m_stage = Stage::done;
    const auto value = m_level.value(kVoiceNeeded);
    if (m_silentMs * 2 > m_stageMs)
        m_finding = Finding::noSound;
    else if (!value)
        m_finding = Finding::noVoice;
    else if (m_clippedMs * 50 > m_allVoicedMs)
        m_finding = Finding::clipping;
    else if (*value - m_roomDbfsA < kLeastSignalToNoiseDb)
        m_finding = Finding::tooNoisy;
}

std::optional<float> MicCheck::usualDbfsA() const
{
    return m_stage == Stage::done && m_finding == Finding::fine ? m_level.value(kVoiceNeeded) : std::nullopt;
}

} // namespace vh::join
