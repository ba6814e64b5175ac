#include "common/echo/thirds.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace vh
{

namespace
{

constexpr double kCut = 8100.0 / 48'000; // the middle of the slope, of the rate
constexpr double kBeta = 5.65;           // 60 dB: 0.1102 (60 - 8.7)

std::array<float, kThirdsTaps> lowPass()
{
    std::array<double, kThirdsTaps> taps{};
    constexpr double kMiddle = (kThirdsTaps - 1) / 2.0;
    double sum = 0;
    for (std::size_t i = 0; i < kThirdsTaps; ++i) {
        const double t = static_cast<double>(i) - kMiddle;
        const double x = 2 * std::numbers::pi * kCut * t;
        const double window = std::cyl_bessel_i(0, kBeta * std::sqrt(1 - (t / kMiddle) * (t / kMiddle)));
        taps[i] = (t == 0 ? 1 : std::sin(x) / x) * window;
        sum += taps[i];
    }
    std::array<float, kThirdsTaps> out{};
    std::transform(taps.begin(), taps.end(), out.begin(), [sum](double tap) { return static_cast<float>(tap / sum); });
    return out;
}

const std::array<float, kThirdsTaps> kLowPass = lowPass();

} // namespace

void ToThird::push(std::span<const float> in, std::span<float> out)
{
    assert(in.size() <= kMost && in.size() == 3 * out.size());
    constexpr std::size_t kBefore = kThirdsTaps - 1;
    std::copy(in.begin(), in.end(), m_past.begin() + kBefore);
    for (std::size_t i = 0; i < out.size(); ++i) {
        const float* newest = m_past.data() + 3 * i; // the filter is symmetric
        float sum = 0;
        for (std::size_t k = 0; k < kThirdsTaps; ++k)
            sum += kLowPass[k] * newest[k];
        out[i] = sum;
    }
    std::copy_n(m_past.begin() + static_cast<std::ptrdiff_t>(in.size()), kBefore, m_past.begin());
}

void FromThird::push(std::span<const float> in, std::span<float> out)
{
    assert(in.size() <= kMost && out.size() == 3 * in.size());
    constexpr std::size_t kBefore = kTaps - 1;
    std::copy(in.begin(), in.end(), m_past.begin() + kBefore);
    for (std::size_t i = 0; i < in.size(); ++i) {
        const float* newest = m_past.data() + kBefore + i;
        for (std::size_t phase = 0; phase < 3; ++phase) {
            float sum = 0;
            for (std::size_t k = 0; phase + 3 * k < kThirdsTaps; ++k)
                sum += kLowPass[phase + 3 * k] * *(newest - k);
            out[3 * i + phase] = 3 * sum;
        }
    }
    std::copy_n(m_past.begin() + static_cast<std::ptrdiff_t>(in.size()), kBefore, m_past.begin());
}

} // namespace vh
