// What the participant's room does with voices: playing those of others, the cue that follows the leader's, and this
// person's own, which goes out only while everybody may hear it.
#include "app/join/join_control.h"

namespace vh::join
{

namespace
{

/// While a cue waits for its sound: how often the loudspeaker is asked how far it has come.
constexpr std::chrono::milliseconds kCueLook{5};

} // namespace

void JoinControl::bindVoices(const JoinRoom& room)
{
    connect(&room, &JoinRoom::invitationAnswered, this, &JoinControl::answerInvitation);
    connect(&room, &JoinRoom::endBeingHeardRequested, this, [this] { carryOut(m_model.endBeingHeard()); });
    connect(&m_sound, &JoinSound::frameCame, this, [this](std::uint32_t stream, std::uint64_t sample) {
        m_model.soundCame(stream, sample, m_line.relayNow());
        lookAtCue();
    });
    connect(&m_sound.loudspeaker(), &sound::Loudspeaker::stateChanged, this,
            [this](sound::LoudspeakerState state) { m_model.voices().loudspeakerIs(state); });
    m_cueTimer.setTimerType(Qt::PreciseTimer);
    m_cueTimer.setInterval(kCueLook);
    connect(&m_cueTimer, &QTimer::timeout, this, &JoinControl::lookAtCue);
}

/// The cue changes with the sound: the screen is refreshed at once, not at its next beat.
void JoinControl::lookAtCue()
{
    if (m_model.lookAtCue(m_sound.audibleUpTo(m_model.voices().leadersStream()), m_line.relayNow()))
        render();
    if (m_model.cueWaits() != m_cueTimer.isActive())
        m_model.cueWaits() ? m_cueTimer.start() : m_cueTimer.stop();
}

void JoinControl::answerInvitation(bool yes)
{
    const std::uint32_t stream = m_sound.freshStream();
    const Wishes wishes = m_model.answerInvitation(yes, stream);
    if (yes && !wishes.empty()) {
        if (!m_listening)
            listen(); // its owner rests today, and has agreed to this
        else if (!m_sound.isReady())
            openEars();
    }
    carryOut(wishes);
}

/// The microphone, with all that listens to it.
void JoinControl::openEars()
{
    const auto& welcome = m_line.welcome();
    if (const auto known = welcome ? m_usuals.find(welcome->person, device()) : std::nullopt)
        m_ears.setEchoPath(known->path);
    m_sound.earsOpen();
    m_ears.start(m_setup.sound);
}

/// What is played, and whether this person's voice goes out: after everything that may have changed it.
void JoinControl::followVoices()
{
    using Play = JoinSound::Play;
    VoicesHere& voices = m_model.voices();
    const bool inside = m_model.isInside();
    const bool checking = m_model.screen() == Screen::check; // then the loudspeaker is the check's
    const Play play = !inside || checking           ? Play::nothing
                      : voices.comesFromElsewhere() ? Play::elsewhere
                                                    : Play::voices;
    if (m_sound.play(play) && m_listening)
        openEars();
    voices.soundComes(m_sound.soundComes(m_setup.clock->now()));
    voices.heardTwice(m_sound.heardTwice());
    if (voices.takeUnwanted())
        m_line.ask(wire::EndSpeaking{});
    const bool heard = voices.isHeard() && inside;
    if (heard == m_sound.isSending())
        return;
    if (heard)
        return m_sound.beginSending();
    m_sound.endSending();
    if (m_model.isResting())
        stopListening();
}

} // namespace vh::join
