#pragma once
// One second-order section, transposed direct form II. State and coefficients are double: a double pole at 20.6 Hz lies
// so near z = 1 at 48 kHz that float would spoil 10 Hz by decibels. Thread: one.
#include "common/signal/level.h"

#include <complex>

namespace vh
{

struct BiquadCoefficients {
    double b0 = 1, b1 = 0, b2 = 0, a1 = 0, a2 = 0;

    /// The complex gain at z = exp(i * angle), angle = 2 pi f / rate.
    [[nodiscard]] std::complex<double> gain(double angle) const
    {
        const std::complex<double> back = std::polar(1.0, -angle);
        return (b0 + back * (b1 + back * b2)) / (1.0 + back * (a1 + back * a2));
    }
};

class Biquad
{
public:
    explicit Biquad(const BiquadCoefficients& coefficients) : m_c(coefficients) {}

    double push(double in)
    {
        const double out = m_c.b0 * in + m_first;
        m_first = m_c.b1 * in + m_second - m_c.a1 * out;
        m_second = m_c.b2 * in - m_c.a2 * out;
        return out;
    }
    void tidy()
    {
        dropDust(m_first);
        dropDust(m_second);
    }

private:
    BiquadCoefficients m_c;
    double m_first = 0.0;
    double m_second = 0.0;
};

/// One section of a steeper filter: `quality` is the pole pair's Q (1 / sqrt 2: a Butterworth by itself).
BiquadCoefficients lowPass(double cornerHz, double sampleRateHz, double quality);
/// Butterworth sections by the bilinear transform, the corner pre-warped so that it lies exactly at `cornerHz`.
BiquadCoefficients butterworthLowPass(double cornerHz, double sampleRateHz);
BiquadCoefficients butterworthHighPass(double cornerHz, double sampleRateHz);

} // namespace vh
