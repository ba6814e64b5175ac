// Whisper and breath made from speech by linear prediction: autocorrelation method and Levinson-Durbin recursion
// (Makhoul 1975, Linear prediction: a tutorial review, Proc. IEEE 63:561), from memory.
#include "tests/ground/voices.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace vh::ground
{

namespace
{

constexpr std::size_t kOrder = 18;
constexpr std::size_t kHop = kVoiceRateHz / 100;
constexpr std::size_t kWindow = 3 * kHop;

struct Envelope {
    std::array<double, kOrder + 1> a{}; ///< a[0] = 1
    double gain = 0;
};

Envelope envelopeAt(std::span<const float> speech, std::size_t centre)
{
    std::array<double, kWindow> cut{};
    for (std::size_t i = 0; i < kWindow; ++i) {
        const std::size_t at = centre + i;
        if (at < kWindow / 2 || at - kWindow / 2 >= speech.size())
            continue;
        cut[i] = speech[at - kWindow / 2] * (0.5 - 0.5 * std::cos(2 * std::numbers::pi * (i + 0.5) / kWindow));
    }
    std::array<double, kOrder + 1> r{};
    for (std::size_t lag = 0; lag <= kOrder; ++lag) {
        for (std::size_t i = lag; i < kWindow; ++i)
            r[lag] += cut[i] * cut[i - lag];
        // a lag window widens each resonance by about 60 Hz: what is left of harmonics must not ring
        const double width = 2 * std::numbers::pi * 60 * static_cast<double>(lag) / kVoiceRateHz;
        r[lag] *= std::exp(-0.5 * width * width);
    }
    Envelope envelope;
    envelope.a[0] = 1;
    double error = r[0] * 1.0001 + 1e-12;
    for (std::size_t k = 1; k <= kOrder; ++k) {
        double sum = r[k];
        for (std::size_t j = 1; j < k; ++j)
            sum += envelope.a[j] * r[k - j];
        const double reflection = -sum / error;
        auto next = envelope.a;
        for (std::size_t j = 1; j < k; ++j)
            next[j] += reflection * envelope.a[k - j];
        next[k] = reflection;
        envelope.a = next;
        error *= 1 - reflection * reflection;
    }
    constexpr double kWindowEnergy = 0.375 * kWindow; // of a Hann window squared
    envelope.gain = std::sqrt(std::max(0.0, error) / kWindowEnergy);
    return envelope;
}

double energyOf(std::span<const float> samples)
{
    double sum = 0;
    for (const float sample : samples)
        sum += static_cast<double>(sample) * sample;
    return sum;
}

} // namespace

Samples whispered(std::span<const float> speech, std::uint64_t seed)
{
    Random random(seed);
    Samples out(speech.size());
    std::array<double, kOrder> past{};
    for (std::size_t at = 0; at < speech.size(); at += kHop) {
        const Envelope envelope = envelopeAt(speech, at + kHop / 2);
        for (std::size_t i = at; i < std::min(at + kHop, speech.size()); ++i) {
            double y = envelope.gain * random.normal();
            for (std::size_t j = 0; j < kOrder; ++j)
                y -= envelope.a[j + 1] * past[j];
            std::shift_right(past.begin(), past.end(), 1);
            past[0] = y;
            out[i] = static_cast<float>(y);
        }
    }
    return out;
}

Samples breathy(std::span<const float> speech, double hnrDb, std::uint64_t seed)
{
    Samples out = whispered(speech, seed);
    const double gain = std::sqrt(energyOf(speech) / std::max(energyOf(out), 1e-12) / std::pow(10.0, hnrDb / 10));
    for (std::size_t i = 0; i < out.size(); ++i)
        out[i] = static_cast<float>(speech[i] + gain * out[i]);
    return out;
}

Samples vowel(double seconds, double pitchHz, std::uint64_t seed)
{
    Random random(seed);
    const double open = random.between(0, 1); // from a closed to an open one
    std::array formants{Resonance(300 + 450 * open, 80, kVoiceRateHz),
                        Resonance(random.between(900, 2000), 110, kVoiceRateHz), Resonance(2600, 160, kVoiceRateHz),
                        Resonance(3500, 220, kVoiceRateHz)};
    Samples out(samplesOf(seconds, kVoiceRateHz));
    double phase = 1;
    double flow = 0;
    for (std::size_t i = 0; i < out.size(); ++i) {
        const double t = static_cast<double>(i) / kVoiceRateHz;
        const double drift = std::sin(2 * std::numbers::pi * 0.7 * t) + 0.6 * std::sin(2 * std::numbers::pi * 5.1 * t);
        phase += pitchHz * (1 + 0.008 * drift) / kVoiceRateHz;
        double pulse = 0;
        if (phase >= 1) {
            phase -= 1 + 0.006 * random.normal();
            pulse = 1 + 0.03 * random.normal() + 0.05 * drift;
        }
        flow = 0.93 * flow + pulse;
        const double edge = std::min({1.0, t / 0.06, (seconds - t) / 0.1});
        double sum = 0;
        double sign = 1;
        for (Resonance& formant : formants) {
            sum += sign * formant.push(edge * (flow - 0.5 * pulse));
            sign = -sign;
        }
        out[i] = static_cast<float>(sum);
    }
    return out;
}

} // namespace vh::ground
