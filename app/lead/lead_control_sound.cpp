// LeadControl's part for sound: her microphone and her voice, the bell, a recording, and the person whom she asks to be
// heard by all.
#include "app/lead/lead_control.h"

#include <QFileDialog>

namespace vh::lead
{

void LeadControl::bindSound()
{
    LeadRoom* room = m_room;
    connect(room, &LeadRoom::muteRequested, this, &LeadControl::pressMute);
    connect(room, &LeadRoom::bellRequested, this, &LeadControl::ring);
    connect(room, &LeadRoom::recordingRequested, this, &LeadControl::toggleRecording);
    connect(room, &LeadRoom::wayRequested, this, &LeadControl::choose);
    connect(room, &LeadRoom::recordingFileRequested, this, &LeadControl::askForRecording);
    connect(room, &LeadRoom::recordingDropRequested, &m_sound, &LeadSound::dropRecording);
    connect(room, &LeadRoom::inviteToSpeakRequested, this, &LeadControl::inviteToSpeak);
    connect(room, &LeadRoom::guestEndRequested, this, &LeadControl::endGuest);
    connect(&m_sound, &LeadSound::cameBack, this, [this] { m_model.voice().cameBack(m_clock.now()); });
    connect(&m_sound, &LeadSound::recordingChanged, this, &LeadControl::refresh);
}

// --- her voice -------------------------------------------------------------------------------------------------------

void LeadControl::pressMute()
{
    if (!m_model.holdsPlace())
        return;
    if (m_model.voice().way() == VoiceWay::elsewhere)
        m_model.say(tr("Your voice goes by the other call. Please go silent there."), m_line.relayNow());
    else
        m_model.voice().press();
    refresh();
}

void LeadControl::ring()
{
    if (m_view.voice.mayRing)
        return m_sound.ring();
    if (m_view.voice.offered)
        m_model.say(m_model.isYours() ? tr("The bell is still while people speak alone.")
                                      : tr("They cannot hear the bell just now. M lets them hear you."),
                    m_line.relayNow());
    refresh();
}

void LeadControl::toggleRecording()
{
    if (!m_view.voice.recording.isEmpty() && (m_view.voice.mayRing || m_view.voice.plays))
        m_sound.toggleRecording();
    refresh();
}

void LeadControl::loadRecording(const QString& path)
{
    if (const auto loaded = m_sound.loadRecording(path); !loaded)
        m_model.say(QString::fromStdString(loaded.error().message), m_line.relayNow());
    refresh();
}

void LeadControl::askForRecording()
{
    const QString path = QFileDialog::getOpenFileName(m_room, tr("A recording to play in class"), {},
                                                      tr("Recordings (*.wav *.ogg *.flac)"));
    if (!path.isEmpty())
        loadRecording(path);
}

void LeadControl::choose(VoiceWay way)
{
    m_model.choose(way);
    refresh();
}

// --- one person, heard by all ----------------------------------------------------------------------------------------

void LeadControl::inviteToSpeak()
{
    if (const auto invite = m_model.hall().inviteOpen())
        m_asked[m_line.ask(*invite)] = {Asked::speak, {}, invite->person};
    refresh();
}

void LeadControl::endGuest()
{
    if (m_model.hall().guest().end())
        m_asked[m_line.ask(wire::EndSpeaking{})] = {Asked::other};
    refresh();
}

// --- her microphone --------------------------------------------------------------------------------------------------

void LeadControl::openSoundCheck()
{
    m_check.emplace();
    listen();
    m_ears.drainFrames([](const VoiceFrame&) {}); // what was heard before does not count
    refresh();
}

void LeadControl::closeSoundCheck()
{
    m_check.reset();
    refresh();
}

void LeadControl::listen()
{
    const Stage stage = m_model.stage();
    if (stage == Stage::inClass || stage == Stage::over)
        m_check.reset(); // the class has begun
    const bool wanted = m_check || (m_model.holdsPlace() && (stage == Stage::ready || stage == Stage::inClass));
    if (wanted != m_listening) {
        m_listening = wanted;
        wanted ? m_ears.start(m_microphone) : m_ears.stop();
    }
    sendVoice();
    if (!m_listening) {
        m_model.setOwnLevel({});
        return m_model.setSoundCheck({});
    }
    const Instant now = m_clock.now();
    m_ears.drainFrames([&](const VoiceFrame& frame) {
        m_model.voice().heard(frame, now);
        if (m_check)
            m_check->add(frame);
    });
    const sound::MeterSnapshot heard = m_ears.snapshot();
    const LevelBar::State sign =
        m_model.voice().sign({m_model.isUp(), m_ears.state(), heard.frameCount > 0 ? &heard.frame : nullptr}, now);
    m_model.setOwnLevel(sign);
    m_model.setSoundCheck(m_check ? std::optional(soundCheckView(*m_check, m_ears.state(), sign, m_model.voice().way()))
                                  : std::nullopt);
}

/// The hall is told, and frames go out, as her voice stands now.
void LeadControl::sendVoice()
{
    const bool open = m_model.stage() == Stage::ready || m_model.stage() == Stage::inClass;
    m_sound.setState(m_model.voice().state(open && m_model.holdsPlace()));
    m_sound.setYours(m_model.isYours());
    m_model.setRecording(m_sound.recording(), m_sound.recordingPlays());
}

} // namespace vh::lead
