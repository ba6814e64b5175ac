#pragma once
// The power spectrum of the last 32 ms, every 10 ms: thinned to about 16 kHz, Hann window, 512 points. Fed with whole
// 10 ms frames of unweighted samples; power is in mean squares re full scale, so that the bins of a frame add up to its
// mean square (Parseval). Allocates when built only. Thread: one.
#include "common/signal/biquad.h"
#include "common/signal/fourier.h"

#include <array>
#include <span>
#include <vector>

namespace vh
{

class Spectrum
{
public:
    static constexpr std::size_t kSize = 512;
    static constexpr std::size_t kBins = kSize / 2;

    explicit Spectrum(int sampleRateHz);

    /// One more frame; the bins stay valid until the next.
    std::span<const float, kBins> push(std::span<const float> frame);
    [[nodiscard]] double hzPerBin() const { return m_hzPerBin; }
    /// The bin that holds this frequency, at most kBins.
    [[nodiscard]] std::size_t binOf(double hz) const;

private:
    void thin(std::span<const float> frame);

    int m_thinning;
    double m_hzPerBin;
    Biquad m_cut;
    Biquad m_cutAgain;
    int m_phase = 0;
    std::array<float, kSize> m_past{}; ///< oldest first
    std::vector<float> m_fresh;        ///< those of this frame
    std::array<float, kSize> m_window{};
    std::array<float, kSize> m_weighed{};
    Fourier m_fourier;
    std::array<std::complex<float>, kBins + 1> m_bins{};
    std::array<float, kBins> m_power{};
};

} // namespace vh
