#pragma once
// The sound of a home: the leader's voice and an invited person's out of the loudspeaker, and, only between a yes and
// its end, this person's own to everybody. Where the group hears its leader by another call nothing is played, and what
// the whole system plays is the far end instead. The microphone is the ears'; line, clock and ears outlive it.
// GUI thread.
#include "app/link/hall_voice.h"
#include "app/sound/copy_watch.h"
#include "app/sound/elsewhere.h"
#include "app/sound/loudspeaker.h"
#include "app/sound/talk.h"
#include "common/sound/voice_mix.h"

namespace vh::join
{

class JoinSound : public QObject
{
    Q_OBJECT
public:
    JoinSound(link::Line& line, const Clock& clock, sound::Ears& ears, sound::DeviceChoice where);
    ~JoinSound() override;

    enum class Play : std::uint8_t { nothing, voices, elsewhere };
    /// What is to come out of the loudspeaker. True: an open microphone must be opened anew for it.
    bool play(Play what);
    [[nodiscard]] sound::Loudspeaker& loudspeaker() { return m_loudspeaker; }
    /// What the ears compare the microphone with. The mic check's own sound goes into it too, while nothing plays here.
    [[nodiscard]] const std::shared_ptr<sound::FarEnd>& farEnd() const { return m_farEnd; }

    /// Up to which sample of this stream the loudspeaker has been heard; nothing where nothing is played.
    [[nodiscard]] std::optional<std::uint64_t> audibleUpTo(std::optional<std::uint32_t> stream);
    /// What the line has done to the leader's voice since the program began.
    [[nodiscard]] SoundStats leaderStats() const { return m_mix.leader().stats(); }
    /// Whether a frame of the leader's has come within the last second.
    [[nodiscard]] bool soundComes(Instant now) const;
    /// In words, which of two copies of the leader's voice to mute; empty: there is one.
    [[nodiscard]] QString heardTwice() const;

    /// Of a voice that may be sent: another number each time. A microphone that is open must be opened anew for it
    /// where `isReady` is false.
    [[nodiscard]] std::uint32_t freshStream();
    [[nodiscard]] bool isReady() const { return m_ready; }
    /// The ears are about to open: from now on they are listened to.
    void earsOpen() { m_ready = true; }
    /// This person's voice goes out from here on, and not a frame after endSending().
    void beginSending();
    void endSending();
    [[nodiscard]] bool isSending() const { return m_talk->sending(); }

signals:
    /// A sound frame of the leader's or of the invited person's has come, in the order of the hall's log.
    void frameCame(std::uint32_t stream, std::uint64_t firstSample);

private:
    void soundArrived(const wire::SoundHead& head, std::span<const std::uint8_t> payload, Instant at);

    link::Line& m_line;
    sound::Ears& m_ears;
    link::HallVoice m_hall;
    std::shared_ptr<sound::FarEnd> m_farEnd;
    VoiceMix m_mix;
    sound::MixFeed m_feed;
    sound::Loudspeaker m_loudspeaker;
    sound::Elsewhere m_elsewhere;
    sound::CopyWatch m_copies;
    std::unique_ptr<sound::Talk> m_talk;
    sound::DeviceChoice m_where;
    Play m_play = Play::nothing;
    std::optional<Instant> m_lastFrame; ///< of the leader's
    bool m_ready = false;               ///< the open microphone knows of m_talk
    bool m_used = false;                ///< m_talk has been heard
};

} // namespace vh::join
