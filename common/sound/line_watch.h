#pragma once
// How late frames come on this line, and so how much sound is worth holding back. Works on *transits*: the playback
// clock's sample count at which a frame was first seen, minus the frame's own sample count. Only differences mean
// anything. Frames on a reliable line are never lost but held behind one another: what matters is the worst hold of the
// last while, not an average, so the allowance follows the highest lateness of the last 20 s. What no buffer of ours
// could bridge (a stall of seconds) says nothing about how much to hold, and does not count.
// In samples at 48 kHz. Pure; thread: one.
#include <array>
#include <cstddef>

namespace vh
{

class LineWatch
{
public:
    static constexpr double kLeast = 1'920;  ///< 40 ms: two frames
    static constexpr double kMost = 15'840;  ///< 330 ms: with frame, codec and 40 ms of line just under 400
    static constexpr double kStart = 2'880;  ///< 60 ms, while nothing is known
    static constexpr double kStall = 28'800; ///< 600 ms: later than this is a stall

    void restart();
    void saw(double transit);
    /// Once a second of the playback clock.
    void second();

    /// The transit of the fastest frame of the last seconds.
    [[nodiscard]] double fastest() const;
    /// The delay worth having beyond the fastest frame.
    [[nodiscard]] double allowance() const;
    [[nodiscard]] bool knows() const { return m_knows; }

private:
    static constexpr std::size_t kSeconds = 20;
    static constexpr std::size_t kFastSeconds = 3;
    /// A frame is decoded whole, up to 20 ms before its end is heard, and seen with a callback's grain.
    static constexpr double kMargin = 1'200;

    std::array<double, kSeconds> m_worst{};
    std::array<double, kFastSeconds> m_fast{}; ///< of seconds in which something came
    double m_worstNow = 0;
    double m_fastNow = 0;
    bool m_someNow = false;
    bool m_knows = false;
    bool m_stalled = false;
    std::size_t m_second = 0;
    std::size_t m_fastSecond = 0;
};

} // namespace vh
