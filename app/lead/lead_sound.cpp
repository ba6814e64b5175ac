#include "app/lead/lead_sound.h"

#include "app/people/call_bell.h"
#include "app/sound/ears.h"

#include <QFileInfo>

namespace vh::lead
{

LeadSound::LeadSound(link::Line& line, const Clock& clock, sound::Ears& ears, QObject* parent)
    : QObject(parent), m_line(line), m_hall(line, clock), m_farEnd(std::make_shared<sound::FarEnd>()), m_feed(m_mix),
      m_loudspeaker(m_feed, m_farEnd), m_talk(ears, sound::Talk::newStream())
{
    m_rings.setSingleShot(true);
    connect(&m_rings, &QTimer::timeout, this, &LeadSound::openLoudspeaker);
    ears.setFarEnd(m_farEnd);
    ears.setWhenGone(sound::Ears::WhenGone::takeStandard);
    connect(&m_hall, &link::HallVoice::changed, this, &LeadSound::hallChanged);
    connect(&m_hall, &link::HallVoice::soundArrived, this, &LeadSound::soundArrived);
    connect(&m_talk, &sound::Talk::recordingEnded, this, &LeadSound::recordingChanged);
    connect(&line, &link::Line::received, this, [this](const wire::ToClient& message) {
        if (std::holds_alternative<wire::Welcome>(message) && m_state != wire::VoiceState::none)
            tell(); // the hall has forgotten it
    });
}

LeadSound::~LeadSound()
{
    m_talk.end();
}

void LeadSound::setState(wire::VoiceState state)
{
    if (state == m_state)
        return;
    m_state = state;
    const bool carried = state == wire::VoiceState::carried;
    m_talk.setMuted(!carried);
    const bool goesOut = carried || state == wire::VoiceState::muted;
    if (carried)
        tell(); // before the first frame
    if (goesOut && !m_talk.sending())
        m_talk.begin([this](const wire::SoundHead& head, std::span<const std::uint8_t> payload) {
            m_line.tellBinary(wire::encodeSound(head, payload)); // muted: the last of it, fading, and then none
        });
    else if (!goesOut)
        m_talk.end();
    if (!carried) {
        m_talk.stopRecording(); // what she mutes is all that comes from her
        tell();
        emit recordingChanged();
    }
}

void LeadSound::tell()
{
    m_line.tell(wire::Voice{m_state, m_talk.stream()});
}

Result<std::chrono::milliseconds> LeadSound::loadRecording(const QString& path)
{
    auto loaded = m_talk.loadRecording(path);
    m_recording = loaded ? QFileInfo(path).fileName() : QString();
    emit recordingChanged();
    return loaded;
}

void LeadSound::dropRecording()
{
    m_talk.stopRecording();
    m_recording.clear();
    emit recordingChanged();
}

void LeadSound::toggleRecording()
{
    if (m_talk.recordingPlays())
        m_talk.stopRecording();
    else if (!m_recording.isEmpty() && m_state == wire::VoiceState::carried)
        m_talk.playRecording();
    emit recordingChanged();
}

void LeadSound::hallChanged()
{
    openLoudspeaker();
}

/// By the same loudspeaker as voices: what it plays is taken out of her microphone.
void LeadSound::ringForCall()
{
    if (!m_feed.clipPlays())
        m_feed.playClip(callRing());
    m_rings.start(kRingTakes);
    openLoudspeaker();
}

/// It is open while somebody else is heard by all, and while a call rings; at no other time.
void LeadSound::openLoudspeaker()
{
    const bool plays = (m_hall.speaking().on && !m_hall.speaking().you) || m_rings.isActive();
    if (plays == m_plays)
        return;
    m_plays = plays;
    plays ? m_loudspeaker.start(m_where) : m_loudspeaker.stop();
}

void LeadSound::soundArrived(const wire::SoundHead& head, std::span<const std::uint8_t> payload, Instant at)
{
    if (head.stream == m_talk.stream())
        emit cameBack();
    else if (m_hall.whose(head.stream) == link::HallVoice::Whose::speakers)
        m_mix.invited().arrive(head, payload, at);
}

} // namespace vh::lead
