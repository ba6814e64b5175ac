#pragma once
// How much later a microphone has what was played: the greatest peak of the generalised cross-correlation with phase
// transform. Works on a copy thinned to 8 kHz, on 200 to 3600 Hz. find() looks at the last stretch of both; it is for
// speech: the peaks of a held vowel repeat with its period. Allocates when built only. Thread: one.
// Source: Knapp and Carter 1976, IEEE Trans ASSP 24:320 (PHAT); where the far end has no energy its phase says nothing
// and is left out.
#include "common/echo/real_fft.h"

#include <optional>
#include <span>
#include <vector>

namespace vh
{

class DelayFinder
{
public:
    struct Found {
        double delay = 0;    ///< samples of 16 kHz, 0 ... farthest
        double strength = 0; ///< of the peak, in standard deviations of everything else
    };

    /// `stretch`: how much of the microphone is looked at; `farthest`: the greatest delay. Samples of 16 kHz, even
    /// numbers.
    DelayFinder(std::size_t stretch, std::size_t farthest);

    /// Ten milliseconds of each: the far end and the microphone, 160 samples.
    void push(std::span<const float> far, std::span<const float> mic);
    /// Nothing before a whole stretch has been pushed, and where all is silent.
    [[nodiscard]] std::optional<Found> find();
    void restart();
    [[nodiscard]] std::size_t stretch() const { return 2 * m_stretch; }

private:
    void correlate();

    std::size_t m_stretch; ///< of 8 kHz, as all below
    std::size_t m_farthest;
    RealFft m_fft;
    std::vector<float> m_far; ///< rings, m_stretch + m_farthest
    std::vector<float> m_mic;
    std::size_t m_at = 0;
    std::size_t m_filled = 0;
    std::vector<float> m_work;
    Bins m_farBins;
    Bins m_micBins;
};

} // namespace vh
