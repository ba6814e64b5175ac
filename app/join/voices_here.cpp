#include "app/join/voices_here.h"

#include <QCoreApplication>

#include <utility>

namespace vh::join
{

namespace
{

QString tr(const char* source)
{
    return QCoreApplication::translate("vh::join::VoicesHere", source);
}

constexpr qsizetype kNameGlance = 24;

QString shortName(const std::string& name, const QString& otherwise)
{
    const QString whole = QString::fromStdString(name);
    if (whole.isEmpty())
        return otherwise;
    return whole.size() <= kNameGlance ? whole : whole.left(kNameGlance - 1).trimmed() + QChar(0x2026);
}

} // namespace

// --- what happens --------------------------------------------------------------------------------------------------

void VoicesHere::voiceIs(const wire::VoiceNow& voice)
{
    m_voice = voice;
    m_comes = true; // until it is seen that nothing does
}

void VoicesHere::welcome(const wire::Welcome& welcome)
{
    m_voice = {};
    m_speaking = {};
    voiceIs(welcome.voice.value_or(wire::VoiceNow{}));
    speakingIs(welcome.speaking.value_or(wire::Speaking{}));
    invitedIs(welcome.invited.value_or(wire::InvitedToSpeak{.on = false, .from = {}}));
}

void VoicesHere::speakingIs(const wire::Speaking& speaking)
{
    if (m_speaking.seq != 0 && speaking.seq <= m_speaking.seq)
        return; // the one for all, after our own
    m_speaking = speaking;
    const bool here = speaking.on && speaking.you;
    const bool ours = here && speaking.stream == m_ownStream;
    if (ours && (m_standing == Standing::agreed || m_standing == Standing::heard)) {
        m_standing = Standing::heard;
        return;
    }
    if (m_standing == Standing::heard) // ended; an answer under way still waits for its own beginning
        m_standing = Standing::nobody;
    m_unwanted = m_unwanted || here;
}

void VoicesHere::invitedIs(const wire::InvitedToSpeak& invited)
{
    if (invited.on && m_standing == Standing::nobody) {
        m_standing = Standing::asked;
        m_from = shortName(invited.from, tr("The leader"));
    } else if (!invited.on && m_standing != Standing::heard) {
        m_standing = Standing::nobody;
    }
}

void VoicesHere::lineIsLost()
{
    m_standing = Standing::nobody;
    m_voice = {};
    m_speaking = {};
}

bool VoicesHere::answer(bool yes, std::uint32_t stream)
{
    if (m_standing != Standing::asked)
        return false;
    m_standing = yes ? Standing::agreed : Standing::nobody;
    m_ownStream = stream;
    return true;
}

bool VoicesHere::end()
{
    const Standing before = std::exchange(m_standing, Standing::nobody);
    return before == Standing::heard || before == Standing::agreed;
}

// --- what is shown -------------------------------------------------------------------------------------------------

std::optional<std::uint32_t> VoicesHere::leadersStream() const
{
    return m_voice.state == wire::VoiceState::carried ? std::optional(m_voice.stream) : std::nullopt;
}

std::optional<std::uint32_t> VoicesHere::guestsStream() const
{
    return m_speaking.on && !m_speaking.you ? std::optional(m_speaking.stream) : std::nullopt;
}

QString VoicesHere::leader() const
{
    return shortName(m_voice.name, tr("the leader"));
}

QString VoicesHere::guest() const
{
    return shortName(m_speaking.name, tr("one of the group"));
}

bool VoicesHere::canPlay() const
{
    return m_loudspeaker == sound::LoudspeakerState::playing || m_loudspeaker == sound::LoudspeakerState::opening;
}

VoiceLine::State VoicesHere::line() const
{
    using Ear = VoiceLine::Ear;
    const bool others = guestsStream().has_value();
    switch (m_voice.state) {
    case wire::VoiceState::none:
        break;
    case wire::VoiceState::carried:
        if (!canPlay())
            return {{tr("You cannot hear %1 just now").arg(leader()), tr("No sound just now")}, Ear::hearsNothing};
        if (others)
            return {{tr("You hear %1 and %2").arg(leader(), guest()), tr("You hear two voices")}, Ear::hears};
        if (!m_comes)
            return {{tr("No sound from %1 just now").arg(leader()), tr("No sound just now")}, Ear::hearsNothing};
        return {{tr("You hear %1").arg(leader()), tr("You hear the leader")}, Ear::hears};
    case wire::VoiceState::muted:
        if (others && canPlay())
            return {{tr("You hear %1").arg(guest())}, Ear::hears};
        return {{tr("%1 is silent for a moment").arg(leader()), tr("Silent for a moment")}, Ear::hearsNothing};
    case wire::VoiceState::elsewhere:
        return {{tr("%1's voice comes through your other call").arg(leader()), tr("Voice by your other call")},
                Ear::hears};
    }
    if (others && canPlay())
        return {{tr("You hear %1").arg(guest())}, Ear::hears};
    return {};
}

QString VoicesHere::advice() const
{
    const bool wanted = leadersStream() || guestsStream();
    if (wanted &&
        (m_loudspeaker == sound::LoudspeakerState::deviceLost || m_loudspeaker == sound::LoudspeakerState::noDevice))
        return tr("No sound can be played. Please plug your headphones or loudspeaker in; the voices come back by "
                  "themselves.");
    return m_twice;
}

InvitationView VoicesHere::invitation(bool resting) const
{
    InvitationView view;
    view.question = tr("%1 would like everybody to hear you. May they?").arg(m_from);
    view.words = resting ? tr("Your microphone is off today. With a yes it is turned on, and off again afterwards.")
                         : tr("A large sign stays on your screen as long as they hear you. You can end it with one "
                              "press. Nothing goes out before you answer, and you may take your time.");
    view.yes = tr("Yes, they may hear me");
    view.no = tr("No, not now");
    return view;
}

} // namespace vh::join
