#pragma once
// Turns by the thousand: somebody (or nobody) speaks among noises, and the home says what it makes of it. Each trial
// sees one kind of voice, or silence, with one noise, or a quiet room. Thread: one.
#include "tests/ground/home.h"
#include "tests/ground/noises.h"
#include "tests/ground/people.h"

#include <map>
#include <optional>

namespace vh::ground
{

/// What came of many turns.
struct Tally {
    int turns = 0;
    int praised = 0;              ///< judged in the band or above, in a turn in which the person was silent
    int silenced = 0;             ///< "no voice heard" stood after a turn in which the person spoke
    int unheard = 0;              ///< less than 0.2 s of voice heard in such a turn
    int cantTell = 0;             ///< untrusted
    int trusted = 0;              ///< with a level to judge
    std::vector<double> errorsDb; ///< of the trusted ones: level read, less the true level
    void add(const Tally& other);
};

struct LevelErrors {
    double medianDb = 0; ///< of what they are off, either way
    double within3Percent = 0;
    double biasDb = 0; ///< median, with sign
};
LevelErrors levelErrors(const Tally& tally);

/// The end of the 95 % interval above `hits` of `of`. Source: Wilson 1927, J Am Stat Assoc 22:209; z = 1.96.
double wilsonUpper(int hits, int of);

class Trials
{
public:
    /// Sounds are made when first asked for. `sayingsPerKind`: different utterances; `streamsPerNoise`: different
    /// minutes.
    Trials(std::size_t sayingsPerKind, std::size_t streamsPerNoise, std::uint64_t seed);

    /// Nobody speaks; the noise goes on, 6 dB under to 12 dB over the person's usual level. No noise: a quiet room.
    Tally silent(std::optional<Noise> noise, int turns);
    /// The person speaks in each turn, whisperers 15 dB under their usual level; the noise is `snrDb` under the voice,
    /// or an even room is.
    Tally speaking(Kind kind, std::optional<Noise> noise, int turns, double snrDb = 10);
    const std::vector<Said>& said(Kind kind);

private:
    struct Scene {
        const Samples* noise = nullptr;
        std::size_t at = 0; ///< in the noise
        double noiseGain = 0;
        std::size_t roomAt = 0;
        double roomGain = 0;
    };
    const std::vector<Samples>& streamsOf(Noise noise);
    Scene sceneFor(std::optional<Noise> noise, double noiseDb);
    /// The next stretch of the scene.
    Samples cut(Scene& scene, double seconds);

    std::size_t m_sayingsPerKind;
    std::size_t m_streamsPerNoise;
    std::uint64_t m_seed;
    Random m_random;
    Samples m_room;
    std::map<Noise, std::vector<Samples>> m_noises;
    std::map<Kind, std::vector<Said>> m_said;
};

} // namespace vh::ground
