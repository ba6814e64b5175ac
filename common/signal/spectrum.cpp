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
      m_cut(butterworthLowPass(cutOf(sampleRateHz), sampleRateHz)), m_cutAgain(m_cut),
      m_fresh(static_cast<std::size_t>(sampleRateHz / 100 / m_thinning + 1))
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
        const double angle = -2 * std::numbers::pi * static_cast<double>(k) / kSize;
        m_turnsRe[k] = static_cast<float>(std::cos(angle));
        m_turnsIm[k] = static_cast<float>(std::sin(angle));
        for (std::size_t bit = 0; bit < bits; ++bit)
            m_order[k] |= ((k >> bit) & 1) << (bits - 1 - bit);
    }
    for (std::size_t half = 1; half < kBins; half *= 2) {
        for (std::size_t k = 0; k < half; ++k) {
            m_stepsRe[half - 1 + k] = m_turnsRe[k * (kBins / half)];
            m_stepsIm[half - 1 + k] = m_turnsIm[k * (kBins / half)];
        }
    }
}

std::size_t Spectrum::binOf(double hz) const
{
    return std::min(kBins, static_cast<std::size_t>(std::lround(hz / m_hzPerBin)));
}

void Spectrum::thin(std::span<const float> frame)
{
    std::size_t count = 0;
    for (const float sample : frame) {
        double smooth = sample;
        if (m_thinning > 1)
            smooth = m_cutAgain.push(m_cut.push(sample));
        if (++m_phase < m_thinning)
            continue;
        m_phase = 0;
        m_fresh[count++] = static_cast<float>(smooth);
    }
    m_cut.tidy();
    m_cutAgain.tidy();
    std::copy(m_past.begin() + static_cast<std::ptrdiff_t>(count), m_past.end(), m_past.begin());
    std::copy_n(m_fresh.begin(), count, m_past.end() - static_cast<std::ptrdiff_t>(count));
}

/// Radix 2, decimation in time, on even samples as real and odd ones as imaginary parts; then taken apart.
void Spectrum::transform()
{
    for (std::size_t half = 1; half < kBins; half *= 2) {
        const float* const turnRe = m_stepsRe.data() + half - 1;
        const float* const turnIm = m_stepsIm.data() + half - 1;
        for (std::size_t start = 0; start < kBins; start += 2 * half) {
            float* const re = m_re.data() + start;
            float* const im = m_im.data() + start;
            for (std::size_t k = 0; k < half; ++k) {
                const float turnedRe = re[k + half] * turnRe[k] - im[k + half] * turnIm[k];
                const float turnedIm = re[k + half] * turnIm[k] + im[k + half] * turnRe[k];
                re[k + half] = re[k] - turnedRe;
                im[k + half] = im[k] - turnedIm;
                re[k] += turnedRe;
                im[k] += turnedIm;
            }
        }
    }
    m_power[0] = 0; // what does not change is no sound
    for (std::size_t k = 1; k < kBins; ++k) {
        const std::size_t back = kBins - k;
        const float evenRe = 0.5F * (m_re[k] + m_re[back]);
        const float evenIm = 0.5F * (m_im[k] - m_im[back]);
        const float oddRe = 0.5F * (m_im[k] + m_im[back]);
        const float oddIm = 0.5F * (m_re[back] - m_re[k]);
        const float re = evenRe + oddRe * m_turnsRe[k] - oddIm * m_turnsIm[k];
        const float im = evenIm + oddIm * m_turnsRe[k] + oddRe * m_turnsIm[k];
        m_power[k] = re * re + im * im;
    }
}

std::span<const float, Spectrum::kBins> Spectrum::push(std::span<const float> frame)
{
    thin(frame);
    for (std::size_t k = 0; k < kBins; ++k) {
        const std::size_t even = 2 * m_order[k];
        m_re[k] = m_past[even] * m_window[even];
        m_im[k] = m_past[even + 1] * m_window[even + 1];
    }
    transform();
    return m_power;
}

} // namespace vh
