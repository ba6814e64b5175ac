#include "tests/ground/sound.h"

#include "common/signal/level.h"
#include "common/signal/weighting.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace vh::ground
{

std::uint64_t Random::next()
{
    std::uint64_t z = m_state += 0x9e3779b97f4a7c15ULL;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
    return z ^ (z >> 31);
}

double Random::between(double from, double to)
{
    return from + (to - from) * static_cast<double>(next() >> 11) / 9007199254740992.0;
}

Resonance::Resonance(double hz, double bandwidthHz, int rateHz)
{
    const double r = std::exp(-std::numbers::pi * bandwidthHz / rateHz);
    const double angle = 2 * std::numbers::pi * hz / rateHz;
    m_a1 = 2 * r * std::cos(angle);
    m_a2 = -r * r;
    m_gain = (1 - r) * std::sqrt(1 - 2 * r * std::cos(2 * angle) + r * r);
}

double Resonance::push(double in)
{
    const double y = m_gain * in + m_a1 * m_y1 + m_a2 * m_y2;
    m_y2 = m_y1;
    m_y1 = y;
    return y;
}

std::size_t samplesOf(double seconds, int rateHz)
{
    return static_cast<std::size_t>(std::lround(seconds * rateHz));
}

std::vector<double> framesA(std::span<const float> samples, int rateHz)
{
    Weighting weighting(rateHz);
    const auto length = static_cast<std::size_t>(rateHz / 100);
    std::vector<double> frames;
    frames.reserve(samples.size() / length);
    for (std::size_t at = 0; at + length <= samples.size(); at += length) {
        double sum = 0;
        for (const float sample : samples.subspan(at, length)) {
            const double a = weighting.push(sample).a;
            sum += a * a;
        }
        frames.push_back(sum / static_cast<double>(length));
    }
    return frames;
}

double activeLevelA(std::span<const float> samples, int rateHz)
{
    const std::vector<double> frames = framesA(samples, rateHz);
    if (frames.empty())
        return kLowestDb;
    std::vector<double> sorted = frames;
    std::sort(sorted.begin(), sorted.end());
    const double loudest = sorted[sorted.size() - 1 - sorted.size() / 100];
    LevelAccumulator active;
    for (const double frame : frames) {
        if (frame >= loudest * 0.01)
            active.add(frame);
    }
    return active.leqDb();
}

Samples atActiveLevelA(Samples samples, double db, int rateHz)
{
    const double gain = std::pow(10.0, (db - activeLevelA(samples, rateHz)) / 20);
    for (float& sample : samples)
        sample = static_cast<float>(sample * gain);
    return samples;
}

void mixInto(std::span<float> to, std::span<const float> what, std::size_t at, double gain)
{
    if (at >= to.size())
        return;
    const std::size_t count = std::min(what.size(), to.size() - at);
    const auto factor = static_cast<float>(gain);
    for (std::size_t i = 0; i < count; ++i)
        to[at + i] += factor * what[i];
}

Samples throughLoudspeaker(std::span<const float> dry, int rateHz)
{
    // Four combs of unlike lengths ring down by 60 dB in a third of a second.
    constexpr std::array kDelays{0.0297, 0.0371, 0.0411, 0.0437};
    constexpr double kTailSeconds = 0.35;
    std::array<std::vector<double>, kDelays.size()> rings;
    std::array<double, kDelays.size()> keeps{};
    std::array<std::size_t, kDelays.size()> at{};
    for (std::size_t k = 0; k < kDelays.size(); ++k) {
        rings[k].resize(samplesOf(kDelays[k], rateHz));
        keeps[k] = std::pow(10.0, -3 * kDelays[k] / kTailSeconds);
    }
    const double low = 1 - std::exp(-2 * std::numbers::pi * 200 / rateHz);
    const double high = 1 - std::exp(-2 * std::numbers::pi * 5000 / rateHz);
    double slow = 0;
    double smooth = 0;
    Samples wet(dry.size());
    for (std::size_t i = 0; i < dry.size(); ++i) {
        slow += low * (dry[i] - slow);
        smooth += high * (dry[i] - slow - smooth);
        double tail = 0;
        for (std::size_t k = 0; k < rings.size(); ++k) {
            double& cell = rings[k][at[k]];
            tail += cell;
            cell = smooth + keeps[k] * cell;
            at[k] = (at[k] + 1) % rings[k].size();
        }
        wet[i] = static_cast<float>(smooth + 0.25 * tail);
    }
    return wet;
}

} // namespace vh::ground
