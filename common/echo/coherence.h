#pragma once
// How much of one sound is a linear copy of another, over the last fifth of a second: magnitude-squared coherence by
// bin (Welch 1967, IEEE Trans AU 15:70: Hann windows of 20 ms, half overlapped; averages exponentially fading), weighed
// by the A-weighted power of the first. 0 for strangers (chance makes it about 0.1), 1 for a copy. Blocks of 10 ms at
// 16 kHz. Thread: one. Source: Bendat and Piersol, Random Data, section 6.1.
#include "common/echo/real_fft.h"

#include <array>
#include <span>

namespace vh
{

class Coherence
{
public:
    static constexpr std::size_t kBlock = 160;

    Coherence();
    double push(std::span<const float> of, std::span<const float> with);
    /// One block in which neither is looked at.
    void skip(std::span<const float> of, std::span<const float> with);

private:
    static constexpr std::size_t kBins = kBlock + 1;
    using Row = std::array<float, kBins>;
    void window(std::array<float, 2 * kBlock>& past, std::span<const float> block, Bins& bins);

    RealFft m_fft;
    std::array<float, 2 * kBlock> m_hann{};
    std::array<float, 2 * kBlock> m_ofPast{};
    std::array<float, 2 * kBlock> m_withPast{};
    std::array<float, 2 * kBlock> m_work{};
    Bins m_of;
    Bins m_with;
    Row m_weight{}; ///< A curve, as power
    Row m_ofPower{}, m_withPower{}, m_crossRe{}, m_crossIm{};
};

} // namespace vh
