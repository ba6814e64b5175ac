#pragma once
// Whether the far end is running speech: it sounds, and its colour changes. Delays and the way through the air are
// learnt from that alone; a held vowel or a glide is too like another voice on the same pitch. Blocks of 10 ms. Thread:
// one. The figures: trial on the proving ground, no published source.
#include <array>
#include <cstddef>
#include <span>

namespace vh
{

class FarSpeech
{
public:
    /// Power of one block of 20 ms by the bin of 50 Hz.
    void push(std::span<const float> power);
    /// A block of silence.
    void rest();
    [[nodiscard]] bool sounds() const { return m_since == 0; }
    /// But for a gap of a third of a second.
    [[nodiscard]] bool goesOn() const { return m_since < 3 * kGap; }
    [[nodiscard]] bool speaks() const { return m_since < kGap && m_change > kLeastChangeDb; }

private:
    static constexpr std::size_t kBands = 8;
    static constexpr std::size_t kBack = 8;
    static constexpr int kGap = 10;
    static constexpr double kLeastChangeDb = 3.5;
    using Bands = std::array<double, kBands>;

    Bands m_smooth{};
    std::array<Bands, kBack> m_past{}; ///< dB, ring
    std::size_t m_at = 0;
    double m_loud = 0; ///< what speech of this far end reaches
    double m_change = 0;
    int m_since = 1000; ///< blocks since it sounded
};

} // namespace vh
