#include "demo/stage/voice_file.h"

#include "demo/stage/wav_file.h"

#include <array>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <random>
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

namespace
{

/// Phrases and pauses, end to end, at RMS 1 while speaking.
std::vector<float> speak(const VoiceFile& voice, std::size_t count)
{
    std::mt19937 random(voice.seed);
    std::normal_distribution<double> noise;
    std::array<Resonance, 3> tract{Resonance(620, 80), Resonance(1220, 100), Resonance(2550, 140)};
    std::vector<float> samples(count);
    double phase = 0;
    double energy = 0;
    std::size_t spoken = 0;
    double drift = 0;
    for (std::size_t i = 0; i < count; ++i) {
        const double t = static_cast<double>(i) / kRateHz;
        const bool speaks = std::fmod(t, voice.phraseSeconds + voice.pauseSeconds) < voice.phraseSeconds;
        if (i % 480 == 0)
            drift = 0.98 * drift + 0.004 * noise(random);
        const double pitch = voice.pitchHz * (1 + 0.06 * std::sin(kTwoPi * 0.7 * t) + drift);
        phase += pitch / kRateHz;
        double source = speaks ? 0.003 * noise(random) : 0.0;
        if (phase >= 1) {
            phase -= 1;
            source += speaks ? 1.0 + 0.05 * noise(random) : 0.0;
        }
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
    for (float& sample : samples)
        sample = static_cast<float>(sample / std::max(rms, 1e-9));
    return samples;
}

} // namespace

bool writeVoiceFile(const std::filesystem::path& file, const VoiceFile& voice)
{
    // Ten phrases, said again and again: an hour of voice is quickly made.
    const double cycle = voice.phraseSeconds + voice.pauseSeconds;
    const std::vector<float> phrases = speak(voice, static_cast<std::size_t>(10 * cycle * kRateHz));
    std::vector<float> room(kRateHz * 3);
    std::mt19937 random(voice.seed + 1);
    std::normal_distribution<float> noise(0.0F, static_cast<float>(std::pow(10, voice.roomDbfs / 20)));
    for (float& sample : room)
        sample = noise(random);

    const double gain = std::pow(10, voice.levelDbfs / 20);
    const double louder = gain * std::pow(10, voice.louderByDb / 20);
    const auto leadIn = static_cast<std::size_t>(voice.leadInSeconds * kRateHz);
    const auto louderFrom = static_cast<std::size_t>(voice.louderFromSeconds * kRateHz);
    std::vector<float> samples(static_cast<std::size_t>(voice.seconds * kRateHz));
    for (std::size_t i = 0; i < samples.size(); ++i) {
        samples[i] = room[i % room.size()];
        if (i >= leadIn)
            samples[i] +=
                static_cast<float>((i >= louderFrom ? louder : gain) * phrases[(i - leadIn) % phrases.size()]);
    }

    return writeWav(file, samples, voice.seconds, WavKind::floats);
}

} // namespace vh::stage
