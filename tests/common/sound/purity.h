#pragma once
// What is in a sound beside one tone. Pure; any thread.
#include <cmath>
#include <numbers>
#include <span>

namespace vh::test
{

/// Power of everything that is not the tone of `hz`, relative to the tone, in dB: harmonics and noise together. Least
/// squares for amplitude and phase at exactly this frequency.
inline double restDb(std::span<const float> samples, double hz)
{
    double ss = 0, cc = 0, sc = 0, ys = 0, yc = 0, yy = 0;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double angle = 2 * std::numbers::pi * hz * static_cast<double>(i) / 48'000;
        const double s = std::sin(angle), c = std::cos(angle), y = samples[i];
        ss += s * s, cc += c * c, sc += s * c, ys += y * s, yc += y * c, yy += y * y;
    }
    const double det = ss * cc - sc * sc;
    const double a = (ys * cc - yc * sc) / det, b = (yc * ss - ys * sc) / det;
    const double power = a * ys + b * yc;
    return 10 * std::log10(std::fmax(yy - power, 1e-30) / power);
}

/// The same where the frequency is known only to within 0.3 %: the purest of what it may be.
inline double restDbNear(std::span<const float> samples, double hz)
{
    double best = 1e9, at = hz;
    for (double step = hz * 1e-4; step > hz * 1e-8; step /= 5) {
        const double middle = at;
        for (int i = -30; i <= 30; ++i) {
            const double rest = restDb(samples, middle + i * step);
            if (rest < best)
                best = rest, at = middle + i * step;
        }
    }
    return best;
}

inline double largestStep(std::span<const float> samples)
{
    double largest = 0;
    for (std::size_t i = 1; i < samples.size(); ++i)
        largest = std::fmax(largest, std::abs(static_cast<double>(samples[i]) - samples[i - 1]));
    return largest;
}

} // namespace vh::test
