#pragma once
// The noises of a home, as this proving ground makes them: none is a recording, each is a rule with a seed. What they are
// like (durations, pitches, spectra) is common practice and listening, no published source. Thread: one.
#include "tests/ground/sound.h"

#include <array>

namespace vh::ground
{

enum class Noise : std::uint8_t {
    breath,          ///< in and out near the microphone, at rest or after effort
    cough,           ///< one to four in a bout: a burst, rushing air, sometimes a voiced end
    door,            ///< a slam: thud, click and rattle
    dog,             ///< barks, 350-1000 Hz, one to six in a bout
    whistle,         ///< a narrow tone at 2-4 kHz for half a second to four
    hum,             ///< mains, 50 or 60 Hz with harmonics, poor or rich
    fan,             ///< steady rushing with a weak blade tone
    television,      ///< people talking, hardly a pause
    televisionMusic, ///< the same with chords under it
};
inline constexpr std::array kNoises{Noise::breath, Noise::cough, Noise::door,       Noise::dog,            Noise::whistle,
                                    Noise::hum,    Noise::fan,   Noise::television, Noise::televisionMusic};
const char* nameOf(Noise noise);

/// That long, at an active level of 0 dB(A). Television needs voices: `talk` is speech to cut from, any level.
Samples noiseOf(Noise noise, double seconds, std::uint64_t seed, int rateHz, std::span<const Samples> talk = {});
/// A room by itself: even noise that falls with frequency, at an active level of 0 dB(A).
Samples roomTone(double seconds, std::uint64_t seed, int rateHz);
/// One narrow tone between 2 and 4 kHz, 0 dB(A): what outlasts voicing.
Samples oneWhistle(double seconds, std::uint64_t seed, int rateHz);

} // namespace vh::ground
