#pragma once
// Who sits in a home, as a voice in a room, and what this person says at a place of the class script. Pure functions of
// the character and the home's seed; any thread.
#include "common/voice/room.h"
#include "demo/chorus/characters.h"

namespace vh::chorus
{

struct Person {
    voice::VoiceTraits traits;
    double usualDbfsA = -44;                              ///< at the mouth, as voice.h counts levels
    std::optional<voice::VoiceTraits> other;              ///< who speaks along at the same microphone
    voice::Room room;                                     ///< as it is at the mic check
    voice::NoiseKind laterNoise = voice::NoiseKind::none; ///< what goes on once the mic check is over
    double laterNoiseDbfsA = -120;
    bool gainRiding = false;
};
[[nodiscard]] Person personOf(Character character, std::uint64_t seed);

/// What is to be said in one turn.
struct SpokenLine {
    std::string text;
    std::vector<Stretch> stretches;
    voice::Melody melody = voice::Melody::speech;
};
/// The step's text; of a vowel or a glide its held sound alone; of a category things that might belong to it, and of
/// open talk a few sentences, as many as fit in `length`.
[[nodiscard]] SpokenLine lineFor(SectionKind section, const Step& step, Millis length, std::uint64_t seed);
/// Read aloud at the mic check: about ten seconds.
[[nodiscard]] SpokenLine checkLine();

} // namespace vh::chorus
