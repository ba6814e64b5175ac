#pragma once
// Whose voice is heard in this home, and whether this person is heard by all: from what the hall says, the loudspeaker
// and the person's own answers. Nobody is heard without their own yes to the question that stands, and not a moment
// after its end, whichever side ended it. Part of JoinModel. Pure; GUI thread.
#include "app/join/join_view.h"
#include "app/sound/loudspeaker_state.h"
#include "common/wire/to_client.h"

#include <utility>

namespace vh::join
{

class VoicesHere
{
public:
    // --- what happens ----------------------------------------------------------------------------------------------
    /// All that the hall knows, anew.
    void welcome(const wire::Welcome& welcome);
    void voiceIs(const wire::VoiceNow& voice);
    void speakingIs(const wire::Speaking& speaking);
    /// Once: the hall believes that this person is heard, who has not agreed to it; it must be told.
    [[nodiscard]] bool takeUnwanted() { return std::exchange(m_unwanted, false); }
    void invitedIs(const wire::InvitedToSpeak& invited);
    /// The line is gone: whoever was heard is heard no longer.
    void lineIsLost();
    void loudspeakerIs(sound::LoudspeakerState state) { m_loudspeaker = state; }
    /// Whether frames of the leader's voice have come within the last second.
    void soundComes(bool comes) { m_comes = comes; }
    /// Two copies of the leader's voice are heard: in words which one to mute; empty: one, or none.
    void heardTwice(const QString& words) { m_twice = words; }

    // --- what the person does --------------------------------------------------------------------------------------
    /// Yes or no to the question. `stream`: of the sound that will be sent. False: no question stands any more.
    bool answer(bool yes, std::uint32_t stream);
    /// False: nobody was heard here.
    bool end();

    [[nodiscard]] bool isAsked() const { return m_standing == Standing::asked; }
    /// This person's sound goes to everybody, from the one change to true until the one back.
    [[nodiscard]] bool isHeard() const { return m_standing == Standing::heard; }
    [[nodiscard]] std::uint32_t ownStream() const { return m_ownStream; }
    /// Of the leader, where their voice comes through Voicehall now.
    [[nodiscard]] std::optional<std::uint32_t> leadersStream() const;
    /// Of somebody else who is heard by all.
    [[nodiscard]] std::optional<std::uint32_t> guestsStream() const;
    [[nodiscard]] bool comesFromElsewhere() const { return m_voice.state == wire::VoiceState::elsewhere; }

    [[nodiscard]] VoiceLine::State line() const;
    /// What to do where something is wrong with the sound of others; empty: nothing.
    [[nodiscard]] QString advice() const;
    /// `resting`: this person's microphone is off today.
    [[nodiscard]] InvitationView invitation(bool resting) const;

private:
    enum class Standing : std::uint8_t { nobody, asked, agreed, heard };

    [[nodiscard]] QString leader() const;
    [[nodiscard]] QString guest() const;
    [[nodiscard]] bool canPlay() const;

    wire::VoiceNow m_voice;
    wire::Speaking m_speaking;
    QString m_from; ///< who asks
    Standing m_standing = Standing::nobody;
    std::uint32_t m_ownStream = 0;
    sound::LoudspeakerState m_loudspeaker = sound::LoudspeakerState::off;
    bool m_comes = true;
    bool m_unwanted = false;
    QString m_twice;
};

} // namespace vh::join
