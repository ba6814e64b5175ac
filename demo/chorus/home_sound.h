#pragma once
// What the microphone of a simulated home gets: the room before a cue and a breath drawn in it, then the person saying
// the step's words at the level meant for this moment, in the room. Immutable once built; any thread. Costs a few
// milliseconds a turn, so call it from a worker.
#include "demo/chorus/person.h"

namespace vh::chorus
{

/// One turn of the class, as this home lives it.
struct TurnToSay {
    Moment moment;
    SpokenLine line;
    std::uint64_t seed = 0; ///< of this turn: the same turn sounds the same
};

class HomeSound
{
public:
    HomeSound(Character character, std::uint64_t seed);

    /// Before the cue, breath included.
    static constexpr Millis kLeadIn{1200};

    /// kLeadIn and then the turn, whole, as the microphone has it. For silent people their room.
    [[nodiscard]] std::vector<float> turn(const TurnToSay& turn) const;
    /// Three and a half seconds of the room, then the lines of the mic check at the usual level.
    [[nodiscard]] std::vector<float> micCheck() const;
    /// What comes on between the mic check and the class, for so long that any meter has got used to it; empty where
    /// the room stays as it was.
    [[nodiscard]] std::vector<float> afterCheck() const;
    [[nodiscard]] const Person& person() const { return m_person; }

private:
    [[nodiscard]] voice::Sound spoken(const voice::Utterance& utterance, std::uint64_t seed) const;
    /// In the room, cut or filled up to `length`, with its noise.
    [[nodiscard]] std::vector<float> heard(voice::Sound sound, Millis length, bool later, std::uint64_t seed) const;

    Character m_character;
    Person m_person;
    voice::RoomModel m_room;
    std::vector<float> m_noise; ///< of the room at 0 dB(A), a few seconds, gone round
    std::vector<float> m_laterNoise;
};

} // namespace vh::chorus
