#pragma once
// A home judging its own turns: frames of the microphone go in, readings for the relay and the state of the meter come
// out. Follows the place; turns are judged by the same function as in the hall (common/live/judge.h). A vowel without a
// usual level of its own is learnt from its first trusted turn; anything else needs the mic check first. Voices in
// turns in which this person does not speak (listen, ready, pauses) are somebody else's: own turns then cannot be told
// unless they are 10 dB louder. Pure: no sound, no socket, no clock. Levels in dB(A) over the person's usual. Thread:
// one.
#include "common/home/other_voices.h"
#include "common/live/judge.h"
#include "common/live/place.h"
#include "common/measure/turn_tally.h"
#include "common/measure/usual_level.h"
#include "common/wire/to_client.h"

#include <map>
#include <optional>

namespace vh
{

class HomeMeter
{
public:
    struct View {
        Standing standing = Standing::notYet; ///< changes between turns only
        Blank reason = Blank::none;
        std::optional<float> nowOverUsualDb; ///< of the present turn, for the moving bar
        Band band;
        bool heard = false;     ///< in a withMe turn: "I hear you"
        bool listening = false; ///< a turn in which this person speaks is on, and its clock runs
        friend bool operator==(const View&, const View&) = default;
    };

    /// Usual levels of this device at this spot.
    void setUsuals(std::map<TaskKind, UsualLevel> usuals) { m_usuals = std::move(usuals); }
    [[nodiscard]] const std::map<TaskKind, UsualLevel>& usuals() const { return m_usuals; }
    /// The room as the mic check found it, dB(A) full scale; that check may have been on another day.
    void setRoom(float noiseFloorDbfsA);
    [[nodiscard]] std::optional<float> roomDbfsA() const { return m_roomDbfsA; }
    /// Two who speak into one microphone cannot be told apart: nothing is judged.
    void setPeople(int people) { m_people = people; }
    /// Where this microphone is calibrated: dB(A) at 30 cm less dB(A) full scale.
    void setCalibration(std::optional<float> offsetDb) { m_calibrationDb = offsetDb; }
    /// Today's mic check has heard the person; frames in class show it too.
    void voiceWasHeard() { m_voiceHeard = true; }
    /// Another microphone: what the one before showed proves nothing of this one.
    void useMicrophone();

    /// Every change of place. A turn that was on is finished first.
    void follow(const wire::PlaceNow& place, const ClassScript& script, float bandOffsetDb, Instant now);
    /// No class any more, or another hall (its judging starts afresh, and so does ours).
    void forget();
    void add(const VoiceFrame& frame);

    /// The reading of the turn that is on, at most four times a second of sound; nothing in turns where nobody speaks.
    [[nodiscard]] std::optional<Reading> takeReading();
    /// The result of a turn that has just finished, once.
    [[nodiscard]] std::optional<TurnResult> takeResult();
    /// The class that is followed: what a result must name.
    [[nodiscard]] std::optional<ClassId> classId() const { return m_class; }
    [[nodiscard]] View view() const;

private:
    struct Turn {
        TurnTally tally;
        TurnKind kind;
        SectionKind section;
        Millis length;
        float offsetDb;
        TaskKind task;
        float usualDbfsA;
        bool judged;                 ///< false: there is no usual level to compare with
        std::uint32_t elapsedMs = 0; ///< of sound
        std::uint32_t sentAtMs = 0;
        std::uint32_t noisyMs = 0;
        std::uint32_t loudspeakerMs = 0; ///< in which what is left of the loudspeaker may cover a voice
        std::uint32_t unexplainedMs = 0; ///< sound that is not known for a voice
        float quietestDbfsA = 0;         ///< the room as it was tracked in this turn, at its lowest
    };

    void finish(Instant now);
    static bool isMasked(const Turn& turn);
    static void noteCover(Turn& turn, const VoiceFrame& frame);
    /// Of the turn so far, with what the others in the room do to it.
    [[nodiscard]] Reading readingOf(const Turn& turn) const;
    [[nodiscard]] std::optional<float> usualFor(TaskKind task) const;
    [[nodiscard]] Surroundings surroundings(const Turn& turn) const;

    std::map<TaskKind, UsualLevel> m_usuals;
    std::optional<float> m_roomDbfsA;
    std::optional<float> m_floorDbfsA;
    bool m_voiceHeard = false;
    int m_people = 1;
    std::optional<float> m_calibrationDb;
    std::optional<Turn> m_turn;
    OtherVoices m_others;
    bool m_othersTurn = false; ///< the class is in a turn in which this person does not speak
    bool m_held = false;       ///< the leader holds the clock: what is heard meanwhile is no part of the turn
    std::optional<TurnResult> m_result;
    JudgeState m_judge;
    Band m_band;
    std::optional<ClassId> m_class;
};

} // namespace vh
