#pragma once
// The far end, moved to where the microphone has it: the delay is found (0 to 600 ms), the drift between two clocks is
// measured and read away, and after a jump (a device started again) all is found anew. Blocks of 10 ms at 16 kHz. The
// first arrival of the sound comes out kMargin later than in the microphone's far end, so that a filter has room before
// it. Allocates when built only. Thread: one.
// Source: growing-memory filter of first order, then fading (Brookner 1998, Tracking and Kalman Filtering Made Easy,
// sections 1.2 and 1.3): while it grows, the straight line of least squares through all delays found.
#include "common/echo/delay_finder.h"
#include "common/echo/far_line.h"

#include <array>
#include <optional>

namespace vh
{

class Alignment
{
public:
    static constexpr std::size_t kBlock = 160;
    static constexpr double kRateHz = 16'000;
    static constexpr double kMargin = 48; ///< 3 ms
    enum class State : unsigned char {
        searching, ///< it is not known yet whether anything comes back
        found,
        nothing, ///< the far end was heard for some time, and nothing came back
    };

    /// `ahead`: how many samples the far end that is read is ahead of the microphone's.
    explicit Alignment(std::size_t ahead);

    /// One block of the far end as it was pushed; `out`: moved.
    void push(std::span<const float> far, std::span<float> out);
    /// What was moved, and the microphone beside it, of the same block. `speaks`: running speech in the far end, from
    /// which a delay can be told. True if the delay has just been found, or found to be another: whatever was learnt of
    /// the moved far end is void.
    bool compare(std::span<const float> moved, std::span<const float> mic, bool speaks);

    [[nodiscard]] State state() const { return m_state; }
    /// From the far end to the first arrival in the microphone, samples; as of now.
    [[nodiscard]] double delay() const { return m_delay; }
    /// How fast that grows, samples per sample.
    [[nodiscard]] double drift() const { return m_drift; }
    /// A delay from earlier, to begin with.
    void begin(double delay);
    void restart();

private:
    bool search();
    bool follow();
    void lock(double delay);
    void lose();
    void correct(double error, double blocksAgo);

    static constexpr std::size_t kHistory = 64; ///< blocks
    FarLine m_line;
    DelayFinder m_far; ///< over all delays
    DelayFinder m_near;
    double m_ahead;
    State m_state = State::searching;
    double m_delay = 0; ///< the line through what was found, now
    double m_drift = 0;
    int m_measured = 0;
    int m_missed = 0;
    double m_readAt = 0; ///< where it is read now
    std::array<double, kHistory> m_wasReadAt{};
    std::size_t m_block = 0;
    std::size_t m_sinceMeasured = 0; ///< blocks
    int m_spoken = 0;                ///< blocks of speech since the last look
    int m_silentLooks = 0;
    std::optional<double> m_candidate;
};

} // namespace vh
