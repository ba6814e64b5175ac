// Sound: whose voice everybody hears. The holder of the place says how hers comes, and may invite one person to be
// heard by all; that person agrees each time. It all ends with the line, the place or the class that it hangs on.
#include "common/wire/binary.h"
#include "server/hall/hall_store.h"

#include <algorithm>

namespace vh::hall
{

namespace
{

constexpr std::size_t kInvitationsRemembered = 16;
/// 200 ms: what was under way when somebody muted themselves, and the frame of silence that ends it.
constexpr int kFramesAfterMute = 10;

Viewer viewerOf(Role role)
{
    switch (role) {
    case Role::leader:
        return Viewer::leader;
    case Role::moderator:
        return Viewer::helper;
    case Role::standIn:
        return Viewer::standIn;
    case Role::participant:
        break;
    }
    return Viewer::participant;
}

/// Whether sound of the leader's may come under a number.
bool hasStream(wire::VoiceState state)
{
    return state == wire::VoiceState::carried || state == wire::VoiceState::muted;
}

} // namespace

// --- frames --------------------------------------------------------------------------------------------------------

void Hall::sound(Session& session, std::span<const std::uint8_t> frame)
{
    const auto sound = wire::decodeSound(frame);
    if (!sound)
        return session.close(wire::CloseCode::policy, sound.error().message);
    if (!m_sound.carries(session, sound->head.stream))
        return; // of somebody who is heard no longer: it was on its way
    if (!session.soundAllowance().take(loop().tick())) {
        ++loop().counters().soundOverLimit;
        return;
    }
    m_log.append(wire::Opcode::binary, {reinterpret_cast<const char*>(frame.data()), frame.size()},
                 net::FrameKind::droppable);
}

// --- the voice of whoever holds the place --------------------------------------------------------------------------

bool Hall::leads(const Session& session) const
{
    return m_run.isOpen() && m_run.state().phase != Phase::ended && m_run.state().lease.holder == session.member()->id;
}

void Hall::on(Session& session, wire::Voice& message)
{
    if (leads(session))
        setVoice(message.state == wire::VoiceState::none ? nullptr : &session, message.state,
                 hasStream(message.state) ? message.stream : 0);
}

void Hall::setVoice(Session* from, wire::VoiceState state, std::uint32_t stream)
{
    m_sound.leader = from;
    if (state == m_sound.voice && stream == m_sound.stream)
        return;
    m_sound.voice = state;
    m_sound.framesAfterMute = state == wire::VoiceState::muted ? kFramesAfterMute : 0;
    m_sound.stream = stream;
    // Where the group hears itself by other means, ours would be a second copy; and a stream is one person's.
    if (state == wire::VoiceState::elsewhere || (m_sound.speaking && stream == m_sound.speakersStream))
        endInvitation({});
    tellAll(voiceNow());
}

wire::VoiceNow Hall::voiceNow() const
{
    return {m_seq, m_sound.voice, m_sound.stream, m_sound.leader ? m_sound.leader->member()->name : std::string()};
}

// --- one person, heard by all --------------------------------------------------------------------------------------

void Hall::on(Session& session, wire::InviteToSpeak& message)
{
    if (!m_run.isOpen() || m_run.state().phase == Phase::ended)
        return session.refuse(message.id, {"no-class", "No class is open.", {}});
    if (!leads(session))
        return session.refuse(message.id, {"not-leader", "Somebody else holds the place.", {}});
    const auto& made = m_sound.invitations;
    const auto before = std::find_if(made.begin(), made.end(), [&](const auto& each) { return each.id == message.id; });
    if (before != made.end() && before->person != message.person)
        return session.refuse(message.id, {"conflict", "This has been asked for before, in other words.", "id"});
    if (before != made.end())
        return done(session, message.id);
    const Member* person = memberById(message.person);
    if (!person)
        return session.refuse(message.id, {"person-unknown", "Nobody of this group.", "person"});
    Session* line = person->session;
    if (!line || line == &session || (line->role() != Role::participant && line->role() != Role::standIn))
        return session.refuse(message.id, {"not-here", "This person is not in class now.", "person"});
    if (m_sound.voice == wire::VoiceState::elsewhere)
        return session.refuse(message.id, {"not-now", "The group hears its voices elsewhere today.", {}});
    if (m_sound.invited && m_sound.invited != line)
        return session.refuse(message.id, {"one-at-a-time", "Somebody else is being asked or heard now.", {}});
    m_sound.invitations.push_back({message.id, message.person});
    if (m_sound.invitations.size() > kInvitationsRemembered)
        m_sound.invitations.pop_front();
    if (!m_sound.invited) {
        m_sound.inviter = &session;
        m_sound.invited = line;
        line->send(wire::InvitedToSpeak{true, session.member()->name}, m_log.end());
    }
    done(session, message.id);
}

void Hall::on(Session& session, wire::SpeakAnswer& message)
{
    const bool asked = m_sound.invited == &session && !m_sound.speaking;
    const bool saidAgain =
        m_sound.invited == &session && m_sound.speaking && message.agree && message.stream == m_sound.speakersStream;
    if (saidAgain)
        return done(session, message.id);
    if (!asked)
        return session.refuse(message.id, {"not-invited", "The question no longer stands.", {}});
    if (message.agree && hasStream(m_sound.voice) && message.stream == m_sound.stream)
        return session.refuse(message.id, {"stream-in-use", "Please begin again with another number.", "stream"});
    if (message.agree) {
        m_sound.speaking = true;
        m_sound.speakersStream = message.stream;
        tellSpeaking();
    } else {
        endInvitation(wire::InviteEnd::notNow);
    }
    done(session, message.id);
}

void Hall::on(Session& session, wire::EndSpeaking& message)
{
    if (m_sound.invited == &session)
        endInvitation(m_sound.speaking ? wire::InviteEnd::ended : wire::InviteEnd::notNow);
    else if (leads(session))
        endInvitation({});
    done(session, message.id);
}

/// `why`: by the invited person's doing, for whoever invited; nothing: by the other side's.
void Hall::endInvitation(std::optional<wire::InviteEnd> why)
{
    Session* invited = std::exchange(m_sound.invited, nullptr);
    Session* inviter = std::exchange(m_sound.inviter, nullptr);
    if (!invited)
        return;
    if (std::exchange(m_sound.speaking, false))
        tellSpeaking();
    else if (!why)
        invited->send(wire::InvitedToSpeak{false, {}}, m_log.end());
    if (why)
        inviter->send(wire::InviteOver{invited->member()->id, invited->member()->name, *why}, m_log.end());
}

wire::Speaking Hall::speakingFor(Role viewer) const
{
    wire::Speaking speaking;
    speaking.seq = m_seq;
    speaking.on = m_sound.speaking;
    if (!speaking.on)
        return speaking;
    const Member& member = *m_sound.invited->member();
    speaking.stream = m_sound.speakersStream;
    if (nameShownTo(viewerOf(viewer), member.agreements)) {
        speaking.seat = member.seat;
        speaking.name = member.name;
    }
    return speaking;
}

/// Who may see more than all gets a message of their own, before the one for all: the first of a seq counts.
void Hall::tellSpeaking()
{
    if (m_sound.speaking)
        for (Session* session : m_sessions) {
            const bool you = session == m_sound.invited;
            if (session->role() == Role::participant && !you)
                continue;
            wire::Speaking own = speakingFor(session->role());
            own.seq = m_seq + 1;
            own.you = you;
            session->send(own, m_log.end());
        }
    tellAll(speakingFor(Role::participant));
}

// --- what ends it --------------------------------------------------------------------------------------------------

/// The place has gone to somebody else, or the class is over.
void Hall::soundFollowsClass()
{
    const ClassState& state = m_run.state();
    if (state.lease.epoch == m_sound.lease && state.phase != Phase::ended)
        return;
    m_sound.lease = state.lease.epoch;
    endInvitation({});
    setVoice(nullptr, wire::VoiceState::none, 0);
}

void Hall::soundLeaves(Session& session)
{
    if (m_sound.invited == &session)
        endInvitation(wire::InviteEnd::lineLost);
    if (m_sound.inviter == &session)
        endInvitation({});
    if (m_sound.leader == &session)
        setVoice(nullptr, wire::VoiceState::none, 0);
}

void Hall::nameSeenChanged(const Member& member)
{
    if (m_sound.speaking && m_sound.invited->member() == &member)
        tellSpeaking();
}

void Hall::soundIn(wire::Welcome& welcome, const Session& session) const
{
    if (m_sound.voice != wire::VoiceState::none)
        welcome.voice = voiceNow();
    if (m_sound.speaking) {
        welcome.speaking = speakingFor(session.role());
        welcome.speaking->you = m_sound.invited == &session;
    } else if (m_sound.invited == &session) {
        welcome.invited = wire::InvitedToSpeak{true, m_sound.inviter->member()->name};
    }
}

void Hall::done(Session& session, const RequestId& id)
{
    wire::Ack ack;
    ack.id = id;
    session.send(ack, m_log.end());
}

} // namespace vh::hall
