#pragma once
// A synthetic voice by source and filter: a glottal pulse with the unsteadiness that people have, breath noise,
// formants, simple consonants. For simulated homes, the demo and proving grounds; nobody is meant to take it for a
// person. Samples are 48 kHz mono, full scale 1.0, in a free field as at 30 cm from the mouth (rooms and distance:
// room.h). The same utterance, traits and seed give the same samples. Plain values and pure functions; any thread.
// Sources: Klatt 1980, J Acoust Soc Am 67:971 (resonators in cascade, consonants); Klatt and Klatt 1990, J Acoust Soc
// Am 87:820 (pulse, open quotient, tilt, breath, double pulses); Peterson and Barney 1952, J Acoust Soc Am 24:175
// (vowels).
#include "common/script/script.h"

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

namespace vh::voice
{

inline constexpr int kRateHz = 48'000;

/// Whose average formants: the two groups of grown-ups of Peterson and Barney 1952.
enum class Tract : std::uint8_t { man, woman };

/// How somebody sounds, whatever is said.
struct VoiceTraits {
    Tract tract = Tract::man;
    double pitchHz = 120;            ///< mean F0 of speech; 50 to 400
    double pitchRangeSemitones = 5;  ///< from the highest to the lowest within a phrase; little of it is monotone
    double syllablesPerSecond = 3.2; ///< own pace; an utterance may ask for another
    double hnrDb = 18;               ///< vowel energy over that of the breath in it, 0 to 25; lower is breathier
    bool whispers = false;           ///< no pulses at all
    double jitterPercent = 0.5;      ///< mean difference of neighbouring periods, of the mean period; 0 to 5
    double shimmerPercent = 3;       ///< mean difference of neighbouring pulse amplitudes, of their mean; 0 to 20
    double tremorHz = 5;             ///< rhythm of a tremor, 4 to 7
    double tremorPitchPercent = 0;   ///< how far it moves F0 to either side
    double tremorLevelDb = 0;        ///< how far it moves the level to either side
    double wanderPercent = 0.8; ///< slow unsteadiness of F0 (standard deviation); the level wanders half as many dB
    double creak = 0;           ///< share of the end of each phrase that is creaky, 0 to 1
    double openQuotient = 0.6;  ///< share of a period in which the glottis is open, 0.3 to 0.8
    double tiltDb = 8;          ///< loss of the pulse at 3 kHz; effortful voices have less
};

/// How the level or the pace goes over the utterance; the mean level stays what was asked for.
enum class Contour : std::uint8_t {
    steady,
    fading,  ///< the level falls evenly by `contourDb`
    rushing, ///< each syllable a little shorter than the one before, and the level falls by half of `contourDb`
};
enum class Melody : std::uint8_t {
    speech,  ///< falls over each phrase, with accents
    level,   ///< one pitch: a sustained vowel
    rising,  ///< a glide from low to high over an octave
    falling, ///< and down
};

/// Something to say, once.
struct Utterance {
    std::string text;               ///< English; nothing is spoken for a text without letters or digits
    std::vector<Stretch> stretches; ///< vowels to hold, as in a class script: bytes of the text
    double seconds = 0;             ///< say it in this time; 0: at the own pace. A text that is far too long overruns
    double levelDbfsA = -36;        ///< A-weighted Leq of the voiced part, dB re full scale (mean square 1.0 = 0 dB)
    Contour contour = Contour::steady;
    double contourDb = 8;
    Melody melody = Melody::speech;
    double silentSeconds = 0;       ///< before it
    double breathSeconds = 0;       ///< of these, drawing breath, audibly, at the end
    double breathUnderVoiceDb = 24; ///< A-weighted level of that breath under the voice's
};

enum class SoundKind : std::uint8_t {
    voiced,    ///< the glottis pulses, from the first pulse of a stretch to its last
    whispered, ///< the same stretches of somebody who whispers
    unvoiced,  ///< a consonant of noise alone
    breath,
};
/// What is in a stretch of samples, [begin, end). To 5 ms; in order, not overlapping; between them is silence.
struct Label {
    SoundKind kind = SoundKind::voiced;
    std::size_t begin = 0;
    std::size_t end = 0;
    friend bool operator==(const Label&, const Label&) = default;
};

struct Sound {
    std::vector<float> samples;
    std::vector<Label> labels;
    int nuclei = 0; ///< syllables spoken
};

[[nodiscard]] Sound render(const Utterance& utterance, const VoiceTraits& traits, std::uint64_t seed);

/// A-weighted Leq over the voiced stretches (the whispered ones where nothing is voiced), dB re full scale; -120 for
/// none.
[[nodiscard]] double voicedLevelDbfsA(const Sound& sound);

/// The same sound with everything `db` louder.
[[nodiscard]] Sound louder(Sound sound, double db);
/// Lays `other` over `sound` from sample `at`; what reaches beyond the end makes it longer. Labels of `other` are kept
/// where `sound` has none.
[[nodiscard]] Sound mixed(Sound sound, const Sound& other, std::size_t at);

} // namespace vh::voice
