#include "app/link/hall_voice.h"

namespace vh::link
{

HallVoice::HallVoice(Line& line, const Clock& clock, QObject* parent) : QObject(parent), m_line(line), m_clock(clock)
{
    connect(&line, &Line::received, this, &HallVoice::take);
    connect(&line, &Line::binaryReceived, this, &HallVoice::takeFrame);
    connect(&line, &Line::stateChanged, this, &HallVoice::lineIs);
}

HallVoice::Whose HallVoice::whose(std::uint32_t stream) const
{
    using wire::VoiceState;
    if (m_speaking.on && stream == m_speaking.stream)
        return Whose::speakers;
    const bool flows = m_leader.state == VoiceState::carried || m_leader.state == VoiceState::muted;
    return flows && stream == m_leader.stream ? Whose::leaders : Whose::nobodys;
}

void HallVoice::take(const wire::ToClient& message)
{
    if (const auto* welcome = std::get_if<wire::Welcome>(&message)) {
        m_leader = welcome->voice.value_or(wire::VoiceNow{});
        m_speaking = welcome->speaking.value_or(wire::Speaking{});
        m_invitation = welcome->invited;
    } else if (const auto* voice = std::get_if<wire::VoiceNow>(&message)) {
        m_leader = *voice;
    } else if (const auto* speaking = std::get_if<wire::Speaking>(&message)) {
        m_speaking = *speaking;
        if (speaking->you)
            m_invitation.reset(); // answered
    } else if (const auto* invited = std::get_if<wire::InvitedToSpeak>(&message)) {
        m_invitation = invited->on ? std::optional(*invited) : std::nullopt;
    } else {
        return;
    }
    emit changed();
}

void HallVoice::takeFrame(const QByteArray& frame)
{
    const std::span bytes(reinterpret_cast<const std::uint8_t*>(frame.constData()),
                          static_cast<std::size_t>(frame.size()));
    if (wire::binaryTypeOf(bytes) != static_cast<std::uint8_t>(wire::BinaryType::sound))
        return;
    const auto sound = wire::decodeSound(bytes);
    if (sound && whose(sound->head.stream) != Whose::nobodys)
        emit soundArrived(sound->head, sound->payload, m_clock.now());
}

void HallVoice::lineIs(LineState state)
{
    if (state == LineState::in)
        return; // the welcome says how it is
    m_leader = {};
    m_speaking = {};
    m_invitation.reset();
    emit changed();
}

} // namespace vh::link
