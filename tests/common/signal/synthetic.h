#pragma once
// Test sounds with known properties, the same on every run: tones, bursts, noise, hum, and vowels made as pulse trains
// through formants, with the unsteadiness that every human voice has. Full scale 1.0.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <functional>
#include <initializer_list>
#include <numbers>
#include <span>
#include <vector>

namespace vh::test
{

using Samples = std::vector<float>;
inline constexpr int kRateHz = 48'000;

inline std::size_t samplesOf(double seconds, int rateHz = kRateHz)
{
    return static_cast<std::size_t>(std::lround(seconds * rateHz));
}

inline double dbOf(std::span<const float> samples)
{
    double sum = 0;
    for (const float sample : samples)
        sum += static_cast<double>(sample) * sample;
    return 10.0 * std::log10(sum / static_cast<double>(samples.size()));
}

/// Scales so that the mean square over everything is `db` re full scale.
inline Samples atLevel(Samples samples, double db)
{
    const double gain = std::pow(10.0, (db - dbOf(samples)) / 20.0);
    for (float& sample : samples)
        sample = static_cast<float>(sample * gain);
    return samples;
}

/// A sine whose mean square is `db` re full scale (amplitude 1.0 is -3.01 dB).
inline Samples sine(double hz, double seconds, double db, int rateHz = kRateHz)
{
    Samples samples(samplesOf(seconds, rateHz));
    const double amplitude = std::numbers::sqrt2 * std::pow(10.0, db / 20.0);
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double turns = hz * static_cast<double>(i) / rateHz;
        samples[i] = static_cast<float>(amplitude * std::sin(2.0 * std::numbers::pi * (turns - std::floor(turns))));
    }
    return samples;
}

inline Samples silence(double seconds, int rateHz = kRateHz)
{
    return Samples(samplesOf(seconds, rateHz), 0.0F);
}

/// Evenly distributed numbers in [-1, 1), by the multiplier and increment of Knuth's MMIX generator.
class Dice
{
public:
    explicit Dice(std::uint64_t seed) : m_state(seed * 2 + 1) {}
    double roll()
    {
        m_state = m_state * 6364136223846793005ULL + 1442695040888963407ULL;
        return static_cast<double>(m_state >> 11) * (2.0 / 9007199254740992.0) - 1.0;
    }
    /// About normal, standard deviation 1.
    double normal() { return (roll() + roll() + roll()) * 1.0; }

private:
    std::uint64_t m_state;
};

inline Samples whiteNoise(double seconds, double db, std::uint64_t seed = 1)
{
    Samples samples(samplesOf(seconds));
    Dice dice(seed);
    for (float& sample : samples)
        sample = static_cast<float>(dice.normal());
    return atLevel(std::move(samples), db);
}

/// Mains hum: `hz` and harmonics, each `fallDb` below the one before; perfectly steady.
inline Samples hum(double hz, int harmonics, double fallDb, double seconds, double db)
{
    Samples samples(samplesOf(seconds));
    for (int k = 1; k <= harmonics; ++k) {
        const Samples tone = sine(hz * k, seconds, -20.0 - fallDb * (k - 1));
        std::transform(samples.begin(), samples.end(), tone.begin(), samples.begin(), std::plus<>());
    }
    return atLevel(std::move(samples), db);
}

struct Vowel {
    double pitchHz = 120;
    double formantsHz[3] = {700, 1200, 2600}; // an open vowel
    double breath = 0;                        ///< noise put through the same formants, against the pulses, as energy
    std::uint64_t seed = 7;
};

/// Pulses with 0.5 % jitter, 2 % shimmer and a slow drift of pitch and level, -12 dB/octave, three formants.
inline Samples sing(const Vowel& vowel, double seconds, double db)
{
    const std::size_t count = samplesOf(seconds);
    Samples pulses(count);
    Dice dice(vowel.seed);
    double next = 0;
    for (std::size_t i = 0; i < count; ++i) {
        if (static_cast<double>(i) < next)
            continue;
        const double t = static_cast<double>(i) / kRateHz;
        const double drift =
            std::sin(2.0 * std::numbers::pi * 0.7 * t) + 0.6 * std::sin(2.0 * std::numbers::pi * 4.3 * t);
        pulses[i] = static_cast<float>((1.0 + 0.02 * dice.normal()) * (1.0 + 0.05 * drift));
        next += kRateHz / (vowel.pitchHz * (1.0 + 0.005 * dice.normal() + 0.008 * drift));
    }
    const auto shape = [&](Samples& samples) {
        double tilt = 0;
        for (float& sample : samples) {
            tilt = 0.98 * tilt + sample;
            sample = static_cast<float>(tilt);
        }
        for (const double formant : vowel.formantsHz) {
            const double r = std::exp(-std::numbers::pi * (50.0 + 0.05 * formant) / kRateHz);
            const double a1 = 2.0 * r * std::cos(2.0 * std::numbers::pi * formant / kRateHz);
            double y1 = 0, y2 = 0;
            for (float& sample : samples) {
                const double y = (1.0 - a1 + r * r) * sample + a1 * y1 - r * r * y2;
                y2 = y1;
                y1 = y;
                sample = static_cast<float>(y);
            }
        }
        double before = 0; // the lips: a difference
        for (float& sample : samples) {
            const double now = sample;
            sample = static_cast<float>(now - before);
            before = now;
        }
    };
    shape(pulses);
    Samples voice = atLevel(std::move(pulses), 0.0);
    if (vowel.breath > 0) {
        Samples air(count);
        for (float& sample : air)
            sample = static_cast<float>(dice.normal());
        // breath has no tilt of its own: differencing before the tilt undoes it
        for (std::size_t i = count; i-- > 1;)
            air[i] = static_cast<float>(air[i] - 0.98 * air[i - 1]);
        shape(air);
        air = atLevel(std::move(air), 10.0 * std::log10(vowel.breath));
        std::transform(voice.begin(), voice.end(), air.begin(), voice.begin(), std::plus<>());
    }
    return atLevel(std::move(voice), db);
}

/// `b` added onto `a` from `atSeconds`, as far as `a` goes.
inline Samples mixed(Samples a, const Samples& b, double atSeconds = 0)
{
    const std::size_t start = std::min(samplesOf(atSeconds), a.size());
    const std::size_t count = std::min(b.size(), a.size() - start);
    for (std::size_t i = 0; i < count; ++i)
        a[start + i] += b[i];
    return a;
}

inline Samples joined(std::initializer_list<Samples> parts)
{
    Samples all;
    for (const Samples& part : parts)
        all.insert(all.end(), part.begin(), part.end());
    return all;
}

} // namespace vh::test
