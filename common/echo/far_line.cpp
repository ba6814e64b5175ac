#include "common/echo/far_line.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace vh
{

namespace
{
constexpr std::size_t kPhases = 64;

/// Between sample kTaps/2 - 1 (phase 0) and kTaps/2 (phase 1).
float sincAt(std::size_t tap, double phase)
{
    constexpr double kHalf = FarLine::kTaps / 2.0;
    const double t = static_cast<double>(tap) - (kHalf - 1) - phase;
    if (std::abs(t) >= kHalf)
        return 0.0F;
    const double window = 0.42 + 0.5 * std::cos(std::numbers::pi * t / kHalf) +
                          0.08 * std::cos(2 * std::numbers::pi * t / kHalf); // Blackman
    const double x = std::numbers::pi * t;
    return static_cast<float>((std::abs(t) < 1e-9 ? 1.0 : std::sin(x) / x) * window);
}
} // namespace

FarLine::FarLine() : m_ring(kSize), m_sinc((kPhases + 1) * kTaps)
{
    for (std::size_t phase = 0; phase <= kPhases; ++phase)
        for (std::size_t tap = 0; tap < kTaps; ++tap)
            m_sinc[phase * kTaps + tap] = sincAt(tap, static_cast<double>(phase) / kPhases);
}

void FarLine::restart()
{
    std::fill(m_ring.begin(), m_ring.end(), 0.0F);
}

void FarLine::write(std::span<const float> samples)
{
    for (const float sample : samples)
        m_ring[m_written++ % kSize] = sample;
}

void FarLine::read(std::span<float> out, double delay, double perSample) const
{
    for (std::size_t i = 0; i < out.size(); ++i) {
        const auto before = static_cast<double>(out.size() - 1 - i);
        const double behind = std::clamp(delay - before * perSample, kLeastDelay, kMostDelay) + before;
        const double whole = std::ceil(behind);
        const double phase = (whole - behind) * kPhases;
        const auto step = static_cast<std::size_t>(phase);
        const auto share = static_cast<float>(phase - static_cast<double>(step));
        const float* low = m_sinc.data() + step * kTaps;
        const float* high = low + kTaps;
        // Sample m_written - 1 - whole lies at phase 0.
        const std::size_t first = m_written + kSize - static_cast<std::size_t>(whole) - kTaps / 2;
        float sum = 0;
        for (std::size_t k = 0; k < kTaps; ++k)
            sum += (low[k] + share * (high[k] - low[k])) * m_ring[(first + k) % kSize];
        out[i] = sum;
    }
}

} // namespace vh
