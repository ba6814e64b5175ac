#pragma once
// The people of the proving ground: kinds of voice, each with a store of utterances, and what a turn of theirs truly
// is. Made once, used many times. Sound at kVoiceRateHz. Thread: one.
#include "common/voice/voice.h"
#include "tests/ground/voices.h"

#include <array>

namespace vh::ground
{

enum class Kind : std::uint8_t {
    modal,         ///< common/voice: HNR 18 dB
    breathy,       ///< common/voice: HNR 8 dB
    hnr5,          ///< common/voice: HNR 5 dB
    hnr0,          ///< common/voice: HNR 0 dB
    whisper,       ///< common/voice: no larynx
    unsteady,      ///< common/voice: tremor, jitter, creak, fading
    espeak,        ///< espeak-ng, many variants
    espeakWhisper, ///< espeak-ng's speech, whispered by linear prediction
};
inline constexpr std::array kKinds{Kind::modal,   Kind::breathy,  Kind::hnr5,   Kind::hnr0,
                                   Kind::whisper, Kind::unsteady, Kind::espeak, Kind::espeakWhisper};
const char* nameOf(Kind kind);

/// Somebody with that kind of voice; not for those that are made by espeak-ng.
voice::VoiceTraits traitsOf(Kind kind, Random& random);

/// One turn's worth: about two to four seconds in which something is said, a sentence or a held vowel.
struct Said {
    Samples samples;       ///< active level 0 dB(A)
    double levelDbfsA = 0; ///< true level: A-weighted energy mean over speechFrames() of the clean voice
};

/// `count` turns of voices of that kind, none longer than `seconds`; different people, all from this seed.
std::vector<Said> sayings(Kind kind, std::size_t count, double seconds, std::uint64_t seed);

} // namespace vh::ground
