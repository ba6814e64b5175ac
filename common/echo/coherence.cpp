#include "common/echo/coherence.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace vh
{

namespace
{
constexpr float kTake = 0.07F; // about 0.15 s

/// IEC 61672-1:2013, Annex E, as power re 1 kHz.
double weightA(double hz)
{
    const double f2 = hz * hz;
    const double r = f2 * f2 * 12194.217 * 12194.217 /
                     ((f2 + 20.598997 * 20.598997) * (f2 + 12194.217 * 12194.217) *
                      std::sqrt((f2 + 107.65265 * 107.65265) * (f2 + 737.86223 * 737.86223)));
    return r * r * std::pow(10.0, 0.2);
}
} // namespace

Coherence::Coherence() : m_fft(2 * kBlock), m_of(kBins), m_with(kBins)
{
    for (std::size_t i = 0; i < m_hann.size(); ++i)
        m_hann[i] =
            static_cast<float>(0.5 - 0.5 * std::cos(2 * std::numbers::pi * static_cast<double>(i) / (2 * kBlock)));
    for (std::size_t k = 0; k < kBins; ++k)
        m_weight[k] = static_cast<float>(weightA(50.0 * static_cast<double>(k)));
}

void Coherence::window(std::array<float, 2 * kBlock>& past, std::span<const float> block, Bins& bins)
{
    std::copy(past.begin() + kBlock, past.end(), past.begin());
    std::copy(block.begin(), block.end(), past.begin() + kBlock);
    for (std::size_t i = 0; i < past.size(); ++i)
        m_work[i] = past[i] * m_hann[i];
    m_fft.forward(m_work, bins);
}

void Coherence::skip(std::span<const float> of, std::span<const float> with)
{
    std::copy(of.begin(), of.end(), m_ofPast.begin() + kBlock);
    std::copy(with.begin(), with.end(), m_withPast.begin() + kBlock);
}

double Coherence::push(std::span<const float> of, std::span<const float> with)
{
    window(m_ofPast, of, m_of);
    window(m_withPast, with, m_with);
    float copied = 0;
    float all = 0;
    for (std::size_t k = 0; k < kBins; ++k) {
        const float a = m_of.re[k];
        const float b = m_of.im[k];
        const float c = m_with.re[k];
        const float d = m_with.im[k];
        m_ofPower[k] += kTake * (a * a + b * b - m_ofPower[k]);
        m_withPower[k] += kTake * (c * c + d * d - m_withPower[k]);
        m_crossRe[k] += kTake * (a * c + b * d - m_crossRe[k]);
        m_crossIm[k] += kTake * (b * c - a * d - m_crossIm[k]);
        const float cross = m_crossRe[k] * m_crossRe[k] + m_crossIm[k] * m_crossIm[k];
        copied += m_weight[k] * cross / (m_withPower[k] + 1e-12F);
        all += m_weight[k] * m_ofPower[k];
    }
    return all > 0 ? static_cast<double>(copied / all) : 0.0;
}

} // namespace vh
