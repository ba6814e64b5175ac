#pragma once
// The far end as the microphone has it: an adaptive linear filter of a quarter of a second at 16 kHz, which can be kept
// still. Blocks of 10 ms. predict() gives what of the far end arrives; learn() brings the filter nearer to what truly
// arrived, one block later. How far each bin moves is a Kalman gain: little while something else sounds. Nothing is
// learnt unless learn() is called. Allocates when built only. Thread: one.
// Sources: Enzner and Vary 2006, Signal Processing 86:1140 (frequency-domain Kalman filter); Soo and Pang 1990, IEEE
// Trans ASSP 38:373 (partitions), of which two are freed of circular parts each block.
#include "common/echo/real_fft.h"

#include <array>
#include <span>
#include <vector>

namespace vh
{

class Canceller
{
public:
    static constexpr std::size_t kBlock = 160;
    static constexpr std::size_t kPartitions = 25;
    static constexpr std::size_t kBins = kBlock + 1;

    Canceller();
    /// One more block of the far end; what the filter makes of it.
    void predict(std::span<const float> far, std::span<float> echo);
    /// `error`: the microphone less the echo predicted for the block before the last one.
    void learn(std::span<const float> error);
    /// Power of the last two blocks of the far end, by the bin of 50 Hz.
    [[nodiscard]] std::span<const float> newestPower() const { return m_farPower[m_newest]; }
    /// All is unknown again.
    void restart();
    /// The way may have changed: what is known is kept, and doubted.
    void doubt();

private:
    using Row = std::array<float, kBins>;
    struct Spectrum {
        Row re{};
        Row im{};
    };
    void constrain(std::size_t partition);
    [[nodiscard]] std::size_t slot(std::size_t blocksAgo) const;

    RealFft m_fft;
    Bins m_bins;
    std::array<float, 2 * kBlock> m_time{};
    std::array<float, kBlock> m_last{};
    std::vector<Spectrum> m_far; ///< ring of kPartitions + 1, newest at m_newest
    std::vector<Row> m_farPower;
    std::size_t m_newest = 0;
    std::vector<Spectrum> m_weights;
    std::vector<Row> m_doubt; ///< variance of each weight
    Row m_other{};            ///< what else sounds: power of the error, smoothed
    bool m_fresh = true;
    std::size_t m_turn = 0;
};

} // namespace vh
