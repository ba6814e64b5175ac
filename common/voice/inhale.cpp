#include "common/voice/inhale.h"

#include "common/signal/level.h"
#include "common/voice/tract.h"
#include "common/voice/weighed.h"

#include <algorithm>
#include <cmath>

namespace vh::voice
{

namespace
{
// Where the noise of breathing in through the mouth is strongest: a choice of ours, by ear and common experience.
constexpr double kHz = 1400;
constexpr double kWidthHz = 1200;
} // namespace

void inhale(double seconds, double levelDbfsA, Random random, Sound& sound)
{
    const auto count = std::min(sound.samples.size(), static_cast<std::size_t>(seconds * kRateHz));
    if (count < static_cast<std::size_t>(kRateHz) / 50)
        return;
    std::vector<double> noise(count);
    for (double& each : noise)
        each = random.even();
    Mouth().push(kHz, kWidthHz, noise);
    std::vector<float> breath(count);
    for (std::size_t i = 0; i < count; ++i) {
        const double share = static_cast<double>(i) / static_cast<double>(count);
        breath[i] = static_cast<float>(noise[i] * std::sin(std::numbers::pi * share));
    }
    const std::size_t begin = sound.samples.size() - count;
    const auto gain = static_cast<float>(std::pow(10, (levelDbfsA - weighedDb(breath)) / 20));
    for (std::size_t i = 0; i < count; ++i)
        sound.samples[begin + i] += gain * breath[i];
    sound.labels.push_back({SoundKind::breath, begin, sound.samples.size()});
}

} // namespace vh::voice
