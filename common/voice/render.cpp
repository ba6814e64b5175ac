#include "common/signal/level.h"
#include "common/voice/inhale.h"
#include "common/voice/source.h"
#include "common/voice/tract.h"
#include "common/voice/weighed.h"

#include <algorithm>
#include <cmath>

namespace vh::voice
{

namespace
{

// How loud the other sounds are beside a vowel, RMS, dB: choices of ours, about as in ordinary speech.
constexpr double kFricationDb = -12;
constexpr double kAspirationDb = -18;
constexpr double kFricationBesideWhisperDb = -4;
constexpr double kClearlyOn = 0.5;
constexpr double kBarelyOn = 0.05;

enum Lane : std::size_t { kPulse, kBreathInVowel, kBreathAlone };
enum Draw : std::uint64_t { kTrack = 1, kGlottis, kNoise, kInhale };

/// Mean squares of each lane while it is on, for balancing.
struct Balance {
    double pulse = 0, inVowel = 0, alone = 0, mouth = 0;
    double aloneDrive = 0, mouthDrive = 0; ///< of the amplitudes that were asked for
};

struct Parts {
    std::vector<Tract3::Lanes> tract;
    std::vector<double> mouth;
    Balance balance;
};

/// The glottis stays open, which damps the first formant: about 300 Hz wide (Klatt 1980, on aspiration).
constexpr double kOpenWidthHz = 300;

/// A whispering voice sends breath where others send pulses.
Control asWhispered(Control control)
{
    control.aspiration = std::max(control.aspiration, control.voicing);
    control.voicing = 0;
    control.widthHz[0] = std::max(control.widthHz[0], kOpenWidthHz);
    return control;
}

void count(const Control& control, std::span<const Tract3::Lanes> tract, std::span<const double> mouth,
           Balance& balance)
{
    for (std::size_t i = 0; i < tract.size(); ++i) {
        if (control.voicing > kClearlyOn) {
            balance.pulse += tract[i][kPulse] * tract[i][kPulse];
            balance.inVowel += tract[i][kBreathInVowel] * tract[i][kBreathInVowel];
        }
        if (control.aspiration > kClearlyOn) {
            balance.alone += tract[i][kBreathAlone] * tract[i][kBreathAlone];
            balance.aloneDrive += control.aspiration * control.aspiration;
        }
        if (control.frication > kBarelyOn) {
            balance.mouth += mouth[i] * mouth[i];
            balance.mouthDrive += control.frication * control.frication;
        }
    }
}

Parts sound(const std::vector<Control>& track, const VoiceTraits& traits, const Random& random)
{
    Parts parts;
    parts.tract.resize(track.size() * kControlSamples);
    parts.mouth.resize(parts.tract.size());
    Glottis glottis(traits, random.branch(kGlottis));
    Random noise = random.branch(kNoise);
    Tract3 tract;
    Mouth mouth;
    std::array<double, kControlSamples> pulses{};
    std::array<double, kControlSamples> open{};
    Control before = track.front();
    for (std::size_t frame = 0; frame < track.size(); ++frame) {
        const Control& now = track[frame];
        glottis.push({before.pitchHz, now.pitchHz, now.creaky}, pulses, open);
        const std::span lanes = std::span(parts.tract).subspan(frame * kControlSamples, kControlSamples);
        const std::span hiss = std::span(parts.mouth).subspan(frame * kControlSamples, kControlSamples);
        for (std::size_t i = 0; i < kControlSamples; ++i) {
            const double share = static_cast<double>(i) / kControlSamples;
            const double gain = before.gain + share * (now.gain - before.gain);
            const double voicing = gain * (before.voicing + share * (now.voicing - before.voicing));
            const double aspiration = gain * (before.aspiration + share * (now.aspiration - before.aspiration));
            const std::uint64_t draw = noise.next();
            const double breath = static_cast<double>(static_cast<std::int32_t>(draw)) * 0x1p-31;
            lanes[i] = {voicing * pulses[i], voicing * open[i] * breath, aspiration * breath};
            hiss[i] = gain * now.frication * static_cast<double>(static_cast<std::int32_t>(draw >> 32U)) * 0x1p-31;
        }
        tract.push(now, lanes);
        if (now.frication > 0 || before.frication > 0)
            mouth.push(now.frication > 0 ? now.frictionHz : before.frictionHz,
                       now.frication > 0 ? now.frictionWidthHz : before.frictionWidthHz, hiss);
        count(now, lanes, hiss, parts.balance);
        before = now;
    }
    return parts;
}

double gainFor(double power, double wanted)
{
    return power > 0 ? std::sqrt(wanted / power) : 0;
}

std::vector<float> mix(const Parts& parts, const VoiceTraits& traits)
{
    const Balance& balance = parts.balance;
    const double reference = traits.whispers ? balance.alone : balance.pulse;
    const double count = traits.whispers ? balance.aloneDrive : static_cast<double>(parts.tract.size());
    const double meanSquare = reference / std::max(count, 1.0);
    // Vowel over breath, over the same stretches.
    const double inVowel = gainFor(balance.inVowel, balance.pulse * meanSquareOfDb(-traits.hnrDb));
    const double alone = traits.whispers ? 1
                                         : gainFor(balance.alone / std::max(balance.aloneDrive, 1e-9),
                                                   meanSquare * meanSquareOfDb(kAspirationDb));
    const double mouth =
        gainFor(balance.mouth / std::max(balance.mouthDrive, 1e-9),
                meanSquare * meanSquareOfDb(traits.whispers ? kFricationBesideWhisperDb : kFricationDb));
    std::vector<float> samples(parts.tract.size());
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const Tract3::Lanes& lane = parts.tract[i];
        samples[i] = static_cast<float>(lane[kPulse] + inVowel * lane[kBreathInVowel] + alone * lane[kBreathAlone] +
                                        mouth * parts.mouth[i]);
    }
    return samples;
}

std::vector<Label> labelsOf(const std::vector<Control>& track, bool whispers)
{
    std::vector<Label> labels;
    for (std::size_t frame = 0; frame < track.size(); ++frame) {
        const Control& control = track[frame];
        const bool spoken = control.voicing > 0;
        if (!spoken && control.frication <= 0 && control.aspiration <= kBarelyOn)
            continue;
        const SoundKind kind = !spoken ? SoundKind::unvoiced : whispers ? SoundKind::whispered : SoundKind::voiced;
        const std::size_t begin = frame * kControlSamples;
        if (!labels.empty() && labels.back().kind == kind && labels.back().end == begin)
            labels.back().end += kControlSamples;
        else
            labels.push_back({kind, begin, begin + kControlSamples});
    }
    return labels;
}

Sound spoken(const Utterance& utterance, const VoiceTraits& traits, const Random& random)
{
    const std::vector<Segment> segments = segmentsOf(utterance, traits);
    std::vector<Control> track = trackOf(segments, utterance, traits, random.branch(kTrack));
    Sound sound;
    if (track.empty())
        return sound;
    sound.labels = labelsOf(track, traits.whispers);
    sound.nuclei = static_cast<int>(
        std::count_if(segments.begin(), segments.end(), [](const Segment& each) { return each.nucleus; }));
    if (traits.whispers)
        std::transform(track.begin(), track.end(), track.begin(), asWhispered);
    sound.samples = mix(vh::voice::sound(track, traits, random), traits);
    return louder(std::move(sound), utterance.levelDbfsA - voicedLevelDbfsA(sound));
}

} // namespace

Sound render(const Utterance& utterance, const VoiceTraits& traits, std::uint64_t seed)
{
    const Random random(seed);
    Sound sound;
    sound.samples.resize(static_cast<std::size_t>(std::max(0.0, utterance.silentSeconds) * kRateHz));
    if (utterance.breathSeconds > 0 && utterance.silentSeconds > 0)
        inhale(std::min(utterance.breathSeconds, utterance.silentSeconds),
               utterance.levelDbfsA - utterance.breathUnderVoiceDb, random.branch(kInhale), sound);
    const std::size_t begin = sound.samples.size();
    Sound said = spoken(utterance, traits, random);
    sound.nuclei = said.nuclei;
    sound.samples.insert(sound.samples.end(), said.samples.begin(), said.samples.end());
    for (const Label& each : said.labels)
        sound.labels.push_back({each.kind, begin + each.begin, begin + each.end});
    return sound;
}

} // namespace vh::voice
