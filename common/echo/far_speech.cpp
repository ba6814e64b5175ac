#include "common/echo/far_speech.h"

#include <algorithm>
#include <cmath>

namespace vh
{

namespace
{
/// Bins of 50 Hz: 200 Hz to 4 kHz, wider upwards.
constexpr std::array<std::size_t, 9> kEdges{4, 7, 10, 14, 20, 28, 40, 56, 80};
/// -75 dB re full scale in blocks of 320: below that nothing comes out of a loudspeaker that could be heard.
constexpr double kLeastPower = 320.0 * 320.0 / 2 * 3.2e-8;
constexpr double kUnderLoud = 1e-3; // 30 dB
constexpr double kForgetLoud = 0.9998;
constexpr double kTakeSmooth = 0.4;
constexpr double kTakeChange = 0.04;
} // namespace

void FarSpeech::rest()
{
    m_since = std::min(m_since + 1, 1000);
}

void FarSpeech::push(std::span<const float> power)
{
    double all = 0;
    Bands now{};
    for (std::size_t b = 0; b < kBands; ++b) {
        for (std::size_t k = kEdges[b]; k < kEdges[b + 1]; ++k)
            m_smooth[b] += kTakeSmooth * static_cast<double>(power[k]) / static_cast<double>(kEdges[b + 1] - kEdges[b]);
        m_smooth[b] *= 1 - kTakeSmooth;
        all += m_smooth[b] * static_cast<double>(kEdges[b + 1] - kEdges[b]);
        now[b] = 10 * std::log10(m_smooth[b] + 1e-9);
    }
    m_loud = std::max(all, m_loud * kForgetLoud);
    const bool on = all > kLeastPower && all > m_loud * kUnderLoud;
    m_since = on ? 0 : std::min(m_since + 1, 1000);

    const Bands& then = m_past[m_at];
    const double top = *std::max_element(now.begin(), now.end());
    double change = 0;
    int counted = 0;
    for (std::size_t b = 0; b < kBands; ++b) {
        if (std::max(now[b], then[b]) < top - 25)
            continue;
        change += std::min(std::abs(now[b] - then[b]), 20.0);
        ++counted;
    }
    m_past[m_at] = now;
    m_at = (m_at + 1) % kBack;
    if (on && counted > 0)
        m_change += kTakeChange * (change / counted - m_change);
}

} // namespace vh
