#pragma once
// The far end of the last second at 16 kHz, read at any delay, in fractions of a sample too: this takes the drift
// between two clocks away. By a windowed sinc of 16 samples, 64 phases and a straight line between them (images 60 dB
// down below 6 kHz). Thread: one. Source: common practice (windowed-sinc interpolation).
#include <span>
#include <vector>

namespace vh
{

class FarLine
{
public:
    static constexpr std::size_t kTaps = 16;
    /// Reading must stay so many samples behind writing.
    static constexpr double kLeastDelay = kTaps / 2 + 1;
    static constexpr double kMostDelay = 14'000;

    FarLine();
    void write(std::span<const float> samples);
    /// `delay`: of the last sample asked for, against the last one written; by how much it grew from sample to sample:
    /// `perSample`.
    void read(std::span<float> out, double delay, double perSample) const;
    void restart();

private:
    static constexpr std::size_t kSize = 16'384; // power of two
    std::vector<float> m_ring;
    std::size_t m_written = 0;
    std::vector<float> m_sinc; ///< phase by phase, one more than there are
};

} // namespace vh
