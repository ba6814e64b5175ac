#include "tests/ground/people.h"

#include "common/signal/level.h"

#include <cmath>

namespace vh::ground
{

voice::VoiceTraits traitsOf(Kind kind, Random& random)
{
    voice::VoiceTraits traits;
    const bool woman = random.chance(0.5);
    traits.tract = woman ? voice::Tract::woman : voice::Tract::man;
    traits.pitchHz = woman ? random.between(150, 250) : random.between(85, 160);
    traits.pitchRangeSemitones = random.between(1, 6);
    traits.syllablesPerSecond = random.between(2.5, 4.5);
    traits.hnrDb = kind == Kind::breathy ? 8 : kind == Kind::hnr5 ? 5 : kind == Kind::hnr0 ? 0 : 18;
    traits.whispers = kind == Kind::whisper;
    if (kind == Kind::unsteady) {
        traits.hnrDb = random.between(8, 16);
        traits.jitterPercent = random.between(1, 3);
        traits.shimmerPercent = random.between(4, 12);
        traits.tremorHz = random.between(4, 7);
        traits.tremorPitchPercent = random.between(1, 6);
        traits.tremorLevelDb = random.between(0.5, 3);
        traits.creak = random.between(0, 0.6);
    }
    return traits;
}

namespace
{

Samples synthetic(Kind kind, double seconds, Random& random)
{
    voice::Utterance utterance;
    utterance.levelDbfsA = -30;
    if (random.chance(0.3)) {
        utterance.text = random.chance(0.5) ? "ah" : "oh";
        utterance.stretches = {{0, 2}};
        utterance.melody = voice::Melody::level;
        utterance.seconds = random.between(0.6, 0.9) * seconds;
    } else {
        utterance.text = std::string(sentences()[random.below(sentences().size())]) + " " +
                         sentences()[random.below(sentences().size())];
    }
    if (kind == Kind::unsteady)
        utterance.contour = random.chance(0.5) ? voice::Contour::fading : voice::Contour::rushing;
    const voice::Sound sound = voice::render(utterance, traitsOf(kind, random), random.next());
    return atVoiceRate(sound.samples, voice::kRateHz);
}

Samples byEspeak(Kind kind, Random& random)
{
    const auto say = [&random] { return std::string(sentences()[random.below(sentences().size())]); };
    const char* variant = espeakVariants()[random.below(espeakVariants().size())];
    const auto wordsPerMinute = static_cast<int>(random.between(100, 170));
    Samples said = espeakSays(say() + " " + say(), variant, wordsPerMinute, static_cast<int>(random.between(25, 75)));
    return kind == Kind::espeakWhisper ? whispered(said, random.next()) : said;
}

} // namespace

const char* nameOf(Kind kind)
{
    constexpr std::array kNames{"modal",   "breathy",  "hnr-5dB", "hnr-0dB",
                                "whisper", "unsteady", "espeak",  "espeak-whisper"};
    return kNames[static_cast<std::size_t>(kind)];
}

std::vector<Said> sayings(Kind kind, std::size_t count, double seconds, std::uint64_t seed)
{
    Random random(seed * 64 + static_cast<std::uint64_t>(kind));
    std::vector<Said> all;
    while (all.size() < count) {
        const bool outside = kind == Kind::espeak || kind == Kind::espeakWhisper;
        Samples samples = outside ? byEspeak(kind, random) : synthetic(kind, seconds, random);
        if (samples.empty())
            return {};
        samples.resize(std::min(samples.size(), samplesOf(seconds, kVoiceRateHz)));
        samples = atActiveLevelA(std::move(samples), 0, kVoiceRateHz);
        const std::vector<bool> speech = speechFrames(samples);
        const std::vector<double> energy = framesA(samples, kVoiceRateHz);
        LevelAccumulator level;
        for (std::size_t i = 0; i < std::min(speech.size(), energy.size()); ++i) {
            if (speech[i])
                level.add(energy[i]);
        }
        all.push_back({std::move(samples), level.leqDb()});
    }
    return all;
}

} // namespace vh::ground
