#pragma once
// What the tests of voices and rooms measure with, written from published definitions and not from what is tested:
// autocorrelation after Boersma 1993 ("Accurate short-term analysis of the fundamental frequency and the
// harmonics-to-noise ratio of a sampled sound", IFA Proceedings 17:97), a spectrum at one frequency by its definition,
// the backward integral of Schroeder 1965 (J Acoust Soc Am 37:409).
#include "common/voice/voice.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>
#include <span>
#include <vector>

namespace vh::voice::test
{

inline constexpr double kTwoPi = 2 * std::numbers::pi;

/// A vowel held for so long, without any unsteadiness.
inline Utterance held(double seconds, const char* text = "Ah")
{
    Utterance utterance;
    utterance.text = text;
    utterance.stretches = {{0, 2}};
    utterance.seconds = seconds;
    utterance.melody = Melody::level;
    return utterance;
}
inline VoiceTraits machine(double pitchHz = 120, double hnrDb = 25)
{
    VoiceTraits traits;
    traits.pitchHz = pitchHz;
    traits.hnrDb = hnrDb;
    traits.jitterPercent = traits.shimmerPercent = traits.wanderPercent = 0;
    return traits;
}

inline std::span<const float> middle(const std::vector<float>& samples, double fromSeconds, double seconds)
{
    return std::span(samples).subspan(static_cast<std::size_t>(fromSeconds * kRateHz),
                                      static_cast<std::size_t>(seconds * kRateHz));
}

struct Period {
    double hz = 0;
    double strength = 0; ///< of the autocorrelation there, window corrected: 0..1
};

/// Greatest peak of the autocorrelation of a Hann-windowed piece, divided by that of the window (Boersma's eq. 9), lags
/// for 60 to 500 Hz. The piece should hold at least six periods.
inline Period periodOf(std::span<const float> piece)
{
    const std::size_t count = piece.size();
    std::vector<double> window(count);
    std::vector<double> sound(count);
    double mean = 0;
    for (const float sample : piece)
        mean += sample / static_cast<double>(count);
    for (std::size_t i = 0; i < count; ++i) {
        window[i] = 0.5 - 0.5 * std::cos(kTwoPi * static_cast<double>(i) / static_cast<double>(count));
        sound[i] = (piece[i] - mean) * window[i];
    }
    const auto at = [count](const std::vector<double>& values, std::size_t lag) {
        double sum = 0;
        for (std::size_t i = 0; i + lag < count; ++i)
            sum += values[i] * values[i + lag];
        return sum;
    };
    const double power = at(sound, 0);
    const double windowPower = at(window, 0);
    const auto corrected = [&](std::size_t lag) { return at(sound, lag) / power / (at(window, lag) / windowPower); };
    Period best;
    double before = corrected(95);
    double here = corrected(96);
    for (std::size_t lag = 96; lag <= 800; ++lag) {
        const double after = corrected(lag + 1);
        // Of peaks as good as equal the first is the period.
        if (here > before && here >= after && here > best.strength * 1.02) {
            const double bend = before - 2 * here + after;
            const double shift = bend < 0 ? 0.5 * (before - after) / bend : 0;
            best = {kRateHz / (static_cast<double>(lag) + shift), here - 0.25 * (before - after) * shift};
        }
        before = here;
        here = after;
    }
    return best;
}

/// 10 lg(r / (1 - r)), Boersma's eq. 4.
inline double hnrDb(const Period& period)
{
    return 10 * std::log10(period.strength / (1 - period.strength));
}

/// Mean power at one frequency, Hann windows of `window` samples, half overlapping.
inline double powerAt(std::span<const float> samples, double hz, std::size_t window)
{
    double power = 0;
    for (std::size_t from = 0; from + window <= samples.size(); from += window / 2) {
        std::complex<double> sum;
        for (std::size_t i = 0; i < window; ++i) {
            const double share = static_cast<double>(i) / static_cast<double>(window);
            sum += samples[from + i] * (0.5 - 0.5 * std::cos(kTwoPi * share)) *
                   std::polar(1.0, -kTwoPi * hz * static_cast<double>(i) / kRateHz);
        }
        power += std::norm(sum);
    }
    return power;
}

/// The frequency from `lowHz` to `highHz`, in steps of 20, at which `samples` is strongest.
inline double peakBetween(std::span<const float> samples, double lowHz, double highHz, std::size_t window = 1440)
{
    double best = 0;
    double bestHz = lowHz;
    for (double hz = lowHz; hz <= highHz; hz += 20)
        if (const double power = powerAt(samples, hz, window); power > best) {
            best = power;
            bestHz = hz;
        }
    return bestHz;
}

/// Reverberation time from the backward integral, least squares between two levels, extrapolated to 60 dB: T20 or T30
/// of ISO 3382-2.
inline double reverberationSeconds(const std::vector<float>& response, double fromDb, double toDb)
{
    std::vector<double> left(response.size());
    double sum = 0;
    for (std::size_t i = response.size(); i-- > 0;)
        left[i] = sum += static_cast<double>(response[i]) * response[i];
    std::vector<std::pair<double, double>> line;
    for (std::size_t i = 0; i < left.size(); ++i)
        if (const double db = 10 * std::log10(left[i] / left[0]); db <= fromDb && db >= toDb)
            line.emplace_back(static_cast<double>(i) / kRateHz, db);
    double meanT = 0;
    double meanDb = 0;
    for (const auto& [t, db] : line) {
        meanT += t / static_cast<double>(line.size());
        meanDb += db / static_cast<double>(line.size());
    }
    double across = 0;
    double along = 0;
    for (const auto& [t, db] : line) {
        across += (t - meanT) * (db - meanDb);
        along += (t - meanT) * (t - meanT);
    }
    return -60 * along / across;
}

} // namespace vh::voice::test
