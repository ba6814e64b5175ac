#pragma once
// The sound of the leader's room: her voice on its way to the hall while it is open, with bell and recording; what
// comes back of it; and the one invited person, who is heard here too. Tells the relay at every change how her voice
// comes. Her microphone is the ears': made before they are started, so that it listens too; line, clock and ears
// outlive it. GUI thread.
#include "app/link/hall_voice.h"
#include "app/sound/loudspeaker.h"
#include "app/sound/talk.h"
#include "common/sound/voice_mix.h"

namespace vh::lead
{

class LeadSound : public QObject
{
    Q_OBJECT
public:
    LeadSound(link::Line& line, const Clock& clock, sound::Ears& ears, QObject* parent = nullptr);
    ~LeadSound() override;

    /// How her voice comes now. Not a frame leaves but while it is carried, and the 20 ms in
    /// which a mute fades out: by their silence homes know it from a loss.
    void setState(wire::VoiceState state);
    /// People speak alone: neither bell nor recording.
    void setYours(bool yours) { m_talk.setYours(yours); }
    void ring() { m_talk.ring(); }
    /// Somebody calls for help: heard here alone.
    void ringForCall();

    /// The length, or in words for her what is wrong with the file.
    Result<std::chrono::milliseconds> loadRecording(const QString& path);
    void dropRecording();
    /// Plays it from its beginning, or stops it.
    void toggleRecording();
    /// Name of the file; empty: none.
    [[nodiscard]] const QString& recording() const { return m_recording; }
    [[nodiscard]] bool recordingPlays() const { return m_talk.recordingPlays(); }

    /// Where the invited person is heard; the standard loudspeaker unless said.
    void setLoudspeaker(const sound::DeviceChoice& choice) { m_where = choice; }

signals:
    /// A frame of hers has come back through the hall.
    void cameBack();
    void recordingChanged();

private:
    void tell();
    void hallChanged();
    void openLoudspeaker();
    void soundArrived(const wire::SoundHead& head, std::span<const std::uint8_t> payload, Instant at);

    link::Line& m_line;
    link::HallVoice m_hall;
    std::shared_ptr<sound::FarEnd> m_farEnd;
    VoiceMix m_mix;
    sound::MixFeed m_feed;
    sound::Loudspeaker m_loudspeaker;
    sound::Talk m_talk;
    sound::DeviceChoice m_where = sound::DeviceChoice::standardDevice();
    wire::VoiceState m_state = wire::VoiceState::none;
    QString m_recording;
    bool m_plays = false; ///< the loudspeaker is on, for somebody else's voice or a call for help
    QTimer m_rings;       ///< while it is on for a call
};

} // namespace vh::lead
