#include "common/home/greeting_check.h"

#include <cmath>

namespace vh
{

void GreetingCheck::add(const VoiceFrame& frame)
{
    if (done())
        return;
    m_voice.add(frame);
    if (!frame.voiced && frame.blank != Blank::noSignal)
        m_room.add(frame.meanSquareA);
}

bool GreetingCheck::asKnown() const
{
    const auto level = m_voice.level();
    if (!level || m_voice.clips() || (m_usualDbfsA && std::abs(*level - *m_usualDbfsA) > kFarOffDb))
        return false;
    const auto room = roomDbfsA();
    return !room || !m_wasRoomDbfsA || *room < *m_wasRoomDbfsA + kFarOffDb || *room < *level - 2 * kFarOffDb;
}

std::optional<float> GreetingCheck::roomDbfsA() const
{
    return m_room.milliseconds() >= 1000 ? std::optional(m_room.dbfsA()) : std::nullopt;
}

} // namespace vh
