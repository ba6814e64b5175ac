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
      m_fresh(static_cast<std::size_t>(sampleRateHz / 100 / m_thinning + 1)), m_fourier(kSize, Fourier::Way::forward)
{
    double energy = 0;
    for (std::size_t i = 0; i < kSize; ++i) {
        m_window[i] =
            static_cast<float>(0.5 - 0.5 * std::cos(2 * std::numbers::pi * (static_cast<double>(i) + 0.5) / kSize));
        energy += static_cast<double>(m_window[i]) * m_window[i];
    }
    const auto scale = static_cast<float>(std::sqrt(2.0 / (energy * kSize))); // one side of the spectrum only
    for (float& weight : m_window)
        weight *= scale;
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

std::span<const float, Spectrum::kBins> Spectrum::push(std::span<const float> frame)
{
    thin(frame);
    for (std::size_t i = 0; i < kSize; ++i)
        m_weighed[i] = m_past[i] * m_window[i];
    m_fourier.forward(m_weighed, m_bins);
    m_power[0] = 0; // what does not change is no sound
    for (std::size_t k = 1; k < kBins; ++k)
        m_power[k] = std::norm(m_bins[k]);
    return m_power;
}

} // namespace vh
