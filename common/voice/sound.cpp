#include "common/voice/weighed.h"

#include "common/signal/level.h"
#include "common/signal/weighting.h"

#include <algorithm>
#include <cmath>

namespace vh::voice
{

double weighedDb(std::span<const float> samples, const std::vector<Label>& labels, SoundKind kind)
{
    Weighting weighting(kRateHz);
    LevelAccumulator level;
    std::size_t at = 0;
    for (const Label& label : labels) {
        if (label.kind != kind)
            continue;
        for (; at < std::min(label.begin, samples.size()); ++at)
            weighting.push(samples[at]);
        for (; at < std::min(label.end, samples.size()); ++at) {
            const double a = weighting.push(samples[at]).a;
            level.add(a * a);
        }
        weighting.tidy();
    }
    return level.count() > 0 ? level.leqDb() : kLowestDb;
}

double weighedDb(std::span<const float> samples)
{
    return weighedDb(samples, {{SoundKind::voiced, 0, samples.size()}}, SoundKind::voiced);
}

double voicedLevelDbfsA(const Sound& sound)
{
    const bool voiced = std::any_of(sound.labels.begin(), sound.labels.end(),
                                    [](const Label& each) { return each.kind == SoundKind::voiced; });
    return weighedDb(sound.samples, sound.labels, voiced ? SoundKind::voiced : SoundKind::whispered);
}

Sound louder(Sound sound, double db)
{
    const auto gain = static_cast<float>(std::pow(10, db / 20));
    for (float& sample : sound.samples)
        sample *= gain;
    return sound;
}

Sound mixed(Sound sound, const Sound& other, std::size_t at)
{
    sound.samples.resize(std::max(sound.samples.size(), at + other.samples.size()));
    for (std::size_t i = 0; i < other.samples.size(); ++i)
        sound.samples[at + i] += other.samples[i];
    const std::vector<Label> own = sound.labels;
    for (const Label& each : other.labels) {
        const Label moved{each.kind, each.begin + at, each.end + at};
        const bool free = std::none_of(own.begin(), own.end(), [&](const Label& taken) {
            return taken.begin < moved.end && moved.begin < taken.end;
        });
        if (free)
            sound.labels.push_back(moved);
    }
    std::sort(sound.labels.begin(), sound.labels.end(),
              [](const Label& a, const Label& b) { return a.begin < b.begin; });
    sound.nuclei += other.nuclei;
    return sound;
}

} // namespace vh::voice
