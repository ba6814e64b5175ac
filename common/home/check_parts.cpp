#include "common/home/check_parts.h"

#include <algorithm>
#include <cmath>

namespace vh
{

namespace
{
constexpr std::uint32_t kFrameMs = VoiceFrame::kMilliseconds;
}

float EnergyMean::dbfsA() const
{
    const double mean = m_sum / std::max(1U, m_frames);
    return mean > 1e-12 ? static_cast<float>(10 * std::log10(mean)) : -120.0F;
}

void RoomPart::add(const VoiceFrame& frame)
{
    m_ms += kFrameMs;
    m_quietMs += frame.voiced ? 0 : kFrameMs;
    m_deadMs = frame.blank == Blank::noSignal ? m_deadMs + kFrameMs : 0;
    if (!frame.voiced && frame.blank != Blank::noSignal)
        m_room.add(frame.meanSquareA);
}

float RoomPart::progress() const
{
    return std::min(1.0F, std::max(static_cast<float>(m_quietMs) / kLengthMs, static_cast<float>(m_ms) / kAtMostMs));
}

void VoicePart::add(const VoiceFrame& frame)
{
    m_ms += kFrameMs;
    m_deadMs = frame.blank == Blank::noSignal ? m_deadMs + kFrameMs : 0;
    if (frame.blank == Blank::clipping)
        m_clippedMs += kFrameMs;
    if (!frame.voiced)
        return;
    m_voicedMs += kFrameMs;
    m_reading.add(frame.meanSquareA);
    if (m_reading.milliseconds() < kReadingMs)
        return;
    m_level.addReading(m_reading.dbfsA(), Millis{m_reading.milliseconds()}, true);
    m_reading = {};
}

float VoicePart::progress() const
{
    const auto needed = static_cast<float>(kReadingMs + kNeeded.count());
    return std::min(1.0F, static_cast<float>(m_voicedMs) / needed);
}

void UtterancePart::add(const VoiceFrame& frame)
{
    m_ms += kFrameMs;
    if (frame.blank == Blank::clipping)
        m_clippedMs += kFrameMs;
    if (frame.voiced) {
        m_voice.add(frame.meanSquareA);
        m_silentMs = 0;
    } else {
        m_silentMs += kFrameMs;
    }
}

bool UtterancePart::done() const
{
    return voicedMs() >= kLongEnoughMs || (voicedMs() >= m_leastMs && m_silentMs >= kOverAfterMs);
}

float UtterancePart::progress() const
{
    return std::min(1.0F, static_cast<float>(voicedMs()) / static_cast<float>(m_leastMs));
}

std::optional<float> UtterancePart::level() const
{
    return voicedMs() >= m_leastMs ? std::optional(m_voice.dbfsA()) : std::nullopt;
}

} // namespace vh
