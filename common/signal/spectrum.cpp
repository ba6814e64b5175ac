#include "common/signal/spectrum.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace vh
{

namespace
{
constexpr double kThinRateHz = 16'000;
constexpr double kCutShare = 0.45; // of the thinned rate: what folds back from above is 12 dB down at once, and falls

int thinningOf(int sampleRateHz)
{
    return std::max(1, static_cast<int>(std::lround(sampleRateHz / kThinRateHz)));
}
double cutOf(int sampleRateHz)
{
    return kCutShare * sampleRateHz / thinningOf(sampleRateHz);
}
} // namespace

Spectrum::Spectrum(int sampleRateHz)
    : m_thinning(thinningOf(sampleRateHz)), m_hzPerBin(static_cast<double>(sampleRateHz) / m_thinning / kSize),
      m_cut(butterworthLowPass(cutOf(sampleRateHz), sampleRateHz)), m_cutAgain(m_cut)
{
    double energy = 0;
    for (std::size_t i = 0; i < kSize; ++i) {
        m_window[i] = static_cast<float>(0.5 - 0.5 * std::cos(2 * std::numbers::pi * (static_cast<double>(i) + 0.5) / kSize));
        energy += static_cast<double>(m_window[i]) * m_window[i];
    }
    const auto scale = static_cast<float>(std::sqrt(2.0 / (energy * kSize))); // one side of the spectrum only
    for (float& weight : m_window)
        weight *= scale;
    std::size_t bits = 0;
    while ((std::size_t{1} << bits) < kBins)
        ++bits;
    for (std::size_t k = 0; k < kBins; ++k) {
        m_turns[k] = std::polar(1.0F, static_cast<float>(-2 * std::numbers::pi * static_cast<double>(k) / kSize));
        for (std::size_t bit = 0; bit < bits; ++bit)
            m_order[k] |= ((k >> bit) & 1) << (bits - 1 - bit);
    }
}

std::size_t Spectrum::binOf(double hz) const
{
    return std::min(kBins, static_cast<std::size_t>(std::lround(hz / m_hzPerBin)));
}

void Spectrum::thin(std::span<const float> frame)
{
    for (const float sample : frame) {
        double smooth = sample;
        if (m_thinning > 1)
            smooth = m_cutAgain.push(m_cut.push(sample));
        if (++m_phase < m_thinning)
            continue;
        m_phase = 0;
        m_past[m_at] = static_cast<float>(smooth);
        m_at = (m_at + 1) % kSize;
    }
    m_cut.tidy();
    m_cutAgain.tidy();
}

/// Radix 2, decimation in time, on even samples as real and odd ones as imaginary parts; then taken apart. Written out
/// because a product of std::complex asks for infinities.
void Spectrum::transform()
{
    for (std::size_t half = 1; half < kBins; half *= 2) {
        const std::size_t step = kBins / half; // in turns of kSize
        for (std::size_t start = 0; start < kBins; start += 2 * half) {
            for (std::size_t k = 0; k < half; ++k) {
                const std::complex<float> turn = m_turns[k * step];
                std::complex<float>& a = m_work[start + k];
                std::complex<float>& b = m_work[start + k + half];
                const float re = b.real() * turn.real() - b.imag() * turn.imag();
                const float im = b.real() * turn.imag() + b.imag() * turn.real();
                b = {a.real() - re, a.imag() - im};
                a = {a.real() + re, a.imag() + im};
            }
        }
    }
    m_power[0] = 0; // what does not change is no sound
    for (std::size_t k = 1; k < kBins; ++k) {
        const std::complex<float> a = m_work[k];
        const std::complex<float> b = std::conj(m_work[kBins - k]);
        const std::complex<float> even = 0.5F * (a + b);
        const std::complex<float> odd{0.5F * (a.imag() - b.imag()), -0.5F * (a.real() - b.real())};
        const float re = even.real() + odd.real() * m_turns[k].real() - odd.imag() * m_turns[k].imag();
        const float im = even.imag() + odd.real() * m_turns[k].imag() + odd.imag() * m_turns[k].real();
        m_power[k] = re * re + im * im;
    }
}

std::span<const float, Spectrum::kBins> Spectrum::push(std::span<const float> frame)
{
    thin(frame);
    for (std::size_t k = 0; k < kBins; ++k) {
        const std::size_t even = 2 * m_order[k];
        m_work[k] = {m_past[(m_at + even) % kSize] * m_window[even],
                     m_past[(m_at + even + 1) % kSize] * m_window[even + 1]};
    }
    transform();
    return m_power;
}

} // namespace vh
