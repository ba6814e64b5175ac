#include "common/signal/biquad.h"

#include <numbers>

namespace vh
{

namespace
{
constexpr double kFlat = 1 / std::numbers::sqrt2;

/// s^2 + s / quality + 1 with s = (z - 1) / (w (z + 1)), w = tan(pi corner / rate); only the numerators differ.
struct Denominator {
    explicit Denominator(double w, double quality = kFlat) : first(1.0 + w / quality + w * w)
    {
        a1 = 2.0 * (w * w - 1.0) / first;
        a2 = (1.0 - w / quality + w * w) / first;
    }
    double first;
    double a1, a2;
};
double warped(double cornerHz, double sampleRateHz)
{
    return std::tan(std::numbers::pi * cornerHz / sampleRateHz);
}
} // namespace

BiquadCoefficients lowPass(double cornerHz, double sampleRateHz, double quality)
{
    const double w = warped(cornerHz, sampleRateHz);
    const Denominator d(w, quality);
    const double b = w * w / d.first;
    return {b, 2.0 * b, b, d.a1, d.a2};
}

BiquadCoefficients butterworthLowPass(double cornerHz, double sampleRateHz)
{
    return lowPass(cornerHz, sampleRateHz, kFlat);
}

BiquadCoefficients butterworthHighPass(double cornerHz, double sampleRateHz)
{
    const Denominator d(warped(cornerHz, sampleRateHz));
    const double b = 1.0 / d.first;
    return {b, -2.0 * b, b, d.a1, d.a2};
}

} // namespace vh
