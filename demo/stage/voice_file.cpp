#include "demo/stage/voice_file.h"

#include <array>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <random>
#include <sndfile.h>
#include <utility>
#include <vector>

namespace vh::stage
{

namespace
{

constexpr int kRateHz = 48000;
constexpr double kTwoPi = 2 * std::numbers::pi;

/// A two-pole resonance (Klatt's form), gain 1 at 0 Hz.
class Resonance
{
public:
    Resonance(double frequencyHz, double bandwidthHz)
    {
        const double r = std::exp(-std::numbers::pi * bandwidthHz / kRateHz);
        m_c = -r * r;
        m_b = 2 * r * std::cos(kTwoPi * frequencyHz / kRateHz);
        m_a = 1 - m_b - m_c;
    }
    double push(double x)
    {
        const double y = m_a * x + m_b * m_1 + m_c * m_2;
        m_2 = std::exchange(m_1, y);
        return y;
    }

private:
    double m_a = 0;
    double m_b = 0;
    double m_c = 0;
    double m_1 = 0;
    double m_2 = 0;
};

} // namespace

bool writeVoiceFile(const std::filesystem::path& file, const VoiceFile& voice)
{
    std::mt19937 random(voice.seed);
    std::normal_distribution<double> noise;
    std::array<Resonance, 3> tract{Resonance(620, 80), Resonance(1220, 100), Resonance(2550, 140)};
    const auto count = static_cast<std::size_t>(voice.seconds * kRateHz);
    std::vector<float> samples(count);
    double phase = 0;
    double energy = 0;
    std::size_t spoken = 0;
    const double cycle = voice.phraseSeconds + voice.pauseSeconds;
    double drift = 0;
    for (std::size_t i = 0; i < count; ++i) {
        const double t = static_cast<double>(i) / kRateHz - voice.leadInSeconds;
        const bool speaks = t >= 0 && std::fmod(t, cycle) < voice.phraseSeconds;
        if (i % 480 == 0)
            drift = 0.98 * drift + 0.004 * noise(random);
        const double pitch = voice.pitchHz * (1 + 0.06 * std::sin(kTwoPi * 0.7 * t) + drift);
        phase += pitch / kRateHz;
        double source = 0;
        if (phase >= 1) {
            phase -= 1;
            source = speaks ? 1.0 + 0.05 * noise(random) : 0.0;
        }
        if (speaks)
            source += 0.003 * noise(random);
        double sound = source;
        for (Resonance& each : tract)
            sound = each.push(sound);
        // About three and a half syllables a second.
        const double syllable = 0.55 + 0.45 * std::sin(kTwoPi * 3.5 * t);
        samples[i] = static_cast<float>(speaks ? sound * syllable : sound * 0.2);
        if (speaks) {
            energy += static_cast<double>(samples[i]) * samples[i];
            ++spoken;
        }
    }
    const double rms = std::sqrt(energy / static_cast<double>(std::max<std::size_t>(spoken, 1)));
    const double gain = std::pow(10, voice.levelDbfs / 20) / std::max(rms, 1e-9);
    const double room = std::pow(10, voice.roomDbfs / 20);
    const double louder = std::pow(10, voice.louderByDb / 20);
    for (std::size_t i = 0; i < count; ++i) {
        const bool later = static_cast<double>(i) / kRateHz >= voice.louderFromSeconds;
        samples[i] = static_cast<float>(samples[i] * gain * (later ? louder : 1.0) + room * noise(random));
    }

    SF_INFO info{};
    info.samplerate = kRateHz;
    info.channels = 1;
    info.format = SF_FORMAT_WAV | SF_FORMAT_FLOAT;
    SNDFILE* out = sf_open(file.string().c_str(), SFM_WRITE, &info);
    if (!out)
        return false;
    const auto written = sf_writef_float(out, samples.data(), static_cast<sf_count_t>(samples.size()));
    return sf_close(out) == 0 && written == static_cast<sf_count_t>(samples.size());
}

} // namespace vh::stage
