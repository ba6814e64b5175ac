#include "common/home/mic_check.h"

#include <algorithm>
#include <cmath>

namespace vh
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
    m_silentMs = frame.blank == Blank::noSignal ? m_silentMs + VoiceFrame::kMilliseconds : 0;
    if (m_stage == Stage::room)
        addRoom(frame);
    else
        addVoice(frame);
}

void MicCheck::addRoom(const VoiceFrame& frame)
{
    // Somebody who speaks now is not the room; nor is the silence of a device that is still waking up.
    if (!frame.voiced && frame.blank != Blank::noSignal) {
        m_roomEnergy += frame.meanSquareA;
        ++m_roomFrames;
    }
    if (m_stageMs < kRoomMs)
        return;
    if (m_silentMs * 2 > m_stageMs)
        return endWith(Finding::noSound);
    m_roomDbfsA = dbOf(m_roomEnergy / std::max(1U, m_roomFrames));
    m_stage = Stage::speak;
    m_stageMs = 0;
}

void MicCheck::addVoice(const VoiceFrame& frame)
{
    if (m_silentMs >= kDeadForMs)
        return endWith(Finding::noSound);
    if (frame.blank == Blank::clipping)
        m_clippedMs += VoiceFrame::kMilliseconds;
    if (frame.voiced) {
        m_energy += frame.meanSquareA;
        m_voicedMs += VoiceFrame::kMilliseconds;
        m_allVoicedMs += VoiceFrame::kMilliseconds;
    }
    if (m_voicedMs >= kReadingMs) {
        const std::uint32_t frames = m_voicedMs / VoiceFrame::kMilliseconds;
        m_level.addReading(dbOf(m_energy / frames), Millis{m_voicedMs}, true);
        m_energy = 0;
        m_voicedMs = 0;
    }
    if (m_level.value(kVoiceNeeded) || m_stageMs >= kSpeakAtMostMs)
        endWith(judged());
}

MicCheck::Finding MicCheck::judged() const
{
    if (m_clippedMs * 50 > m_allVoicedMs && m_allVoicedMs > 0)
        return Finding::clipping;
    const auto value = m_level.value(kVoiceNeeded);
    if (!value)
        return Finding::noVoice;
    return *value - m_roomDbfsA < kLeastSignalToNoiseDb ? Finding::tooNoisy : Finding::fine;
}

void MicCheck::endWith(Finding finding)
{
    m_stage = Stage::done;
    m_finding = finding;
}

float MicCheck::progress() const
{
    if (m_stage == Stage::room)
        return static_cast<float>(m_stageMs) / kRoomMs;
    const auto needed = static_cast<float>(kReadingMs + kVoiceNeeded.count());
    return m_stage == Stage::done ? 1.0F : std::min(1.0F, static_cast<float>(m_allVoicedMs) / needed);
}

std::optional<float> MicCheck::usualDbfsA() const
{
    return m_stage == Stage::done && m_finding == Finding::fine ? m_level.value(kVoiceNeeded) : std::nullopt;
}

} // namespace vh
