#include "common/home/mic_check.h"

namespace vh
{

void MicCheck::add(const VoiceFrame& frame)
{
    if (m_stage == Stage::done)
        return;
    if (m_stage == Stage::room) {
        m_room.add(frame);
        if (!m_room.done())
            return;
        if (m_room.dead())
            return endWith(Finding::noSound);
        m_stage = Stage::speak;
        return;
    }
    m_voice.add(frame);
    if (m_voice.dead())
        endWith(Finding::noSound);
    else if (m_voice.done() || m_voice.elapsedMs() >= kSpeakAtMostMs)
        endWith(judged());
}

MicCheck::Finding MicCheck::judged() const
{
    if (m_voice.clips())
        return Finding::clipping;
    const auto value = m_voice.level();
    if (!value)
        return Finding::noVoice;
    return *value - m_room.dbfsA() < kLeastSignalToNoiseDb ? Finding::tooNoisy : Finding::fine;
}

void MicCheck::endWith(Finding finding)
{
    m_stage = Stage::done;
    m_finding = finding;
}

float MicCheck::progress() const
{
    if (m_stage == Stage::done)
        return 1;
    return m_stage == Stage::room ? m_room.progress() : m_voice.progress();
}

std::optional<float> MicCheck::usualDbfsA() const
{
    return m_stage == Stage::done && m_finding == Finding::fine ? m_voice.level() : std::nullopt;
}

} // namespace vh
