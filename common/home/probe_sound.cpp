#include "common/home/probe_sound.h"

#include "common/voice/voice.h"

namespace vh
{

namespace
{

constexpr double kLevelDbfsA = -26; ///< as a leader's voice comes
constexpr double kEvenUnderDb = 10;
constexpr double kFadeDb = 48; ///< from a good voice to less than any gate lets through
constexpr std::size_t kFrame = voice::kRateHz / 100;
constexpr std::size_t kGap = kFrame * 190; ///< a pause by itself

voice::VoiceTraits steadyVoice()
{
    voice::VoiceTraits traits;
    traits.tract = voice::Tract::woman;
    traits.pitchHz = 190;
    traits.hnrDb = 22;
    traits.jitterPercent = 0;
    traits.shimmerPercent = 0;
    traits.wanderPercent = 0;
    return traits;
}

std::vector<float> spoken(const voice::Utterance& utterance)
{
    std::vector<float> samples = voice::render(utterance, steadyVoice(), 7).samples;
    samples.resize(samples.size() / kFrame * kFrame); // whole frames
    return samples;
}

std::vector<float> vowel(double seconds, double levelDbfsA, double fadeDb)
{
    voice::Utterance held;
    held.text = "ah";
    held.stretches = {{0, 2}};
    held.seconds = seconds;
    held.levelDbfsA = levelDbfsA;
    held.melody = voice::Melody::level;
    if (fadeDb > 0) {
        held.contour = voice::Contour::fading;
        held.contourDb = fadeDb;
    }
    return spoken(held);
}

} // namespace

ProbeSound makeProbeSound()
{
    ProbeSound sound;
    const auto append = [&sound](const std::vector<float>& more) {
        const std::size_t from = sound.samples.size() / kFrame;
        sound.samples.insert(sound.samples.end(), more.begin(), more.end());
        return from;
    };
    const std::vector<float> gap(kGap);
    voice::Utterance line;
    line.text = "This is how a voice sounds from here. Now two long ones.";
    line.levelDbfsA = kLevelDbfsA;
    append(spoken(line));
    append(gap);
    sound.layout.evenFrom = append(vowel(3, kLevelDbfsA - kEvenUnderDb, 0));
    sound.layout.evenTo = sound.samples.size() / kFrame;
    append(gap);
    sound.layout.fadeFrom = append(vowel(5, kLevelDbfsA - 6, kFadeDb));
    sound.layout.fadeTo = sound.samples.size() / kFrame;
    sound.layout.length = sound.layout.fadeTo;
    return sound;
}

} // namespace vh
