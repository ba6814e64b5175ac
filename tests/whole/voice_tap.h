#pragma once
// An ear beside a microphone, for tests: counts what the microphone brought, and says which of a few tones is in what
// the loudspeaker beside it plays, sample for sample, in windows of 100 ms. Each voice of a test is another tone: so
// what a home hears says whose voice it is. Tones are multiples of 10 Hz: whole periods in a window, so that none leaks
// into another. Counts: any thread; hear() on the line's worker.
#include "app/sound/line_listener.h"

#include <array>
#include <atomic>
#include <cmath>
#include <complex>
#include <cstdint>
#include <numbers>

namespace vh::testing
{

enum class Tone : std::uint8_t { leader, standIn, guest, recording, bell };
/// The bell's prime stands at 523 Hz (common/sound/bell.h).
inline constexpr std::array<double, 5> kToneHz{440, 700, 330, 1310, 520};
inline double hzOf(Tone tone)
{
    return kToneHz[static_cast<std::size_t>(tone)];
}

class VoiceTap final : public sound::LineListener
{
public:
    static constexpr std::size_t kWindow = 4'800;
    static constexpr double kLoud = 0.015; ///< amplitude; the voices have 0.07, the bell 0.04 at its stroke

    VoiceTap()
    {
        for (std::size_t i = 0; i < kToneHz.size(); ++i)
            m_turn[i] = std::polar(1.0, -2 * std::numbers::pi * kToneHz[i] / 48'000);
        m_phase.fill(1);
        for (auto& quiet : m_quiet)
            quiet = 1;
    }

    void opened() override { m_openedAt = m_heard.load(); }
    void hear(std::span<const float> microphone, std::span<const float> farEnd) noexcept override
    {
        for (const float sample : farEnd) {
            for (std::size_t i = 0; i < kToneHz.size(); ++i) {
                m_sum[i] += static_cast<double>(sample) * m_phase[i];
                m_phase[i] *= m_turn[i];
            }
            if (++m_filled == kWindow)
                endWindow();
        }
        m_heard += microphone.size();
    }

    /// Samples of the microphone, in all, and since it was opened last.
    [[nodiscard]] std::uint64_t heard() const { return m_heard; }
    [[nodiscard]] std::uint64_t heardSinceOpened() const { return m_heard - m_openedAt; }
    /// Windows that are over, and those in which this tone sounded.
    [[nodiscard]] int windows() const { return m_windows; }
    [[nodiscard]] int windowsWith(Tone tone) const { return m_with[static_cast<std::size_t>(tone)]; }
    /// In the last window.
    [[nodiscard]] bool sounds(Tone tone) const { return m_quiet[static_cast<std::size_t>(tone)] == 0; }
    /// For half a second: longer than any sound is kept on its way.
    [[nodiscard]] bool isGone(Tone tone) const { return m_quiet[static_cast<std::size_t>(tone)] >= 5; }

private:
    void endWindow() noexcept
    {
        for (std::size_t i = 0; i < kToneHz.size(); ++i) {
            const double amplitude = 2 * std::abs(m_sum[i]) / kWindow;
            m_with[i] += amplitude > kLoud ? 1 : 0;
            m_quiet[i] = amplitude > kLoud ? 0 : m_quiet[i] + 1;
            m_sum[i] = 0;
            m_phase[i] = 1;
        }
        m_filled = 0;
        ++m_windows;
    }

    std::array<std::complex<double>, kToneHz.size()> m_turn{};
    std::array<std::complex<double>, kToneHz.size()> m_phase{};
    std::array<std::complex<double>, kToneHz.size()> m_sum{};
    std::size_t m_filled = 0;
    std::array<std::atomic<int>, kToneHz.size()> m_with{};
    std::array<std::atomic<int>, kToneHz.size()> m_quiet{}; ///< windows since it sounded
    std::atomic<int> m_windows{0};
    std::atomic<std::uint64_t> m_heard{0};
    std::atomic<std::uint64_t> m_openedAt{0};
};

} // namespace vh::testing
