#pragma once
// The mic check in full, for a device or spot that is not known yet: the room, the usual level, one long vowel, one
// line with more voice, the loudspeaker, who speaks at this computer. One question after the other; each may be left
// out, and gone back to. Nothing ends because time is over. What was heard is kept as plain facts; what they mean is in
// check_findings.h. No sound, no clock: frames of 10 ms. Thread: one.
#include "common/home/check_findings.h"
#include "common/home/check_parts.h"
#include "common/home/played_probe.h"
#include "common/signal/pause_watch.h"
#include "common/signal/room_gain.h"

namespace vh
{

class FullCheck
{
public:
    enum class Stage : std::uint8_t { room, usual, vowel, louder, loudspeaker, people, done };

    /// A frame of the microphone.
    void add(const VoiceFrame& frame);
    /// The same while the check's sound is played: with the microphone's own 10 ms, before anything was taken out of
    /// it, and what was handed to the loudspeaker. A-weighted mean squares.
    void addPlayed(const VoiceFrame& frame, float microphone, float played);

    /// The person wants to hear the voice on the loudspeaker now.
    void play(ProbeLayout layout);
    [[nodiscard]] bool isPlaying() const { return m_probe.has_value(); }
    /// How much of the delay is this program's own: what lies in the playback device's buffer.
    void setPlaybackBuffer(std::uint32_t milliseconds) { m_facts.bufferMs = milliseconds; }
    /// As the sound system says: another input volume than when the usual level was found.
    void setOtherVolume(bool other) { m_facts.otherVolume = other; }

    /// Leaves this question out.
    void skip();
    /// To the question before this one, which is then asked anew. False on the first.
    bool goBack();
    /// How many speak at this computer in class.
    void answerPeople(int people);

    [[nodiscard]] Stage stage() const { return m_stage; }
    /// Enough was heard; a moment of quiet is waited for.
    [[nodiscard]] bool isSettling() const { return m_settling; }
    /// 0 ... 1 of this question.
    [[nodiscard]] float progress() const;
    /// This question has been on for a while, and little was heard: time for a hint, never for an end.
    [[nodiscard]] bool needsHint() const;

    [[nodiscard]] const CheckFacts& facts() const { return m_facts; }
    /// What is to be said, when it is done; before that as things are.
    [[nodiscard]] CheckFinding finding() const { return findingOf(m_facts); }

private:
    void enter(Stage stage);
    void settle(const VoiceFrame& frame);
    void finishPlaying();
    [[nodiscard]] bool partDone() const;
    void keepPart();
    void keepRoom();

    Stage m_stage = Stage::room;
    bool m_settling = false;
    std::uint32_t m_settledMs = 0; ///< without a voice, in a row
    std::uint32_t m_settlingMs = 0;
    RoomPart m_room;
    VoicePart m_usual;
    UtterancePart m_vowel{kVowelMs};
    UtterancePart m_louder{kLouderMs};
    PauseWatch m_pauses;
    RoomGain m_roomGain;
    std::optional<PlayedProbe> m_probe;
    PauseWatch m_playedPauses;
    std::size_t m_sincePlayed = 0; ///< frames
    std::size_t m_probeFrames = 0;
    std::size_t m_probeLength = 0;
    bool m_probeHasBegun = false;
    std::size_t m_probeSinceBegun = 0;
    CheckFacts m_facts;

    static constexpr std::uint32_t kVowelMs = 2000;
    static constexpr std::uint32_t kLouderMs = 1200;
};

} // namespace vh
