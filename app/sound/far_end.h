#pragma once
// What the loudspeaker plays, on its way to the microphone's line, sample for sample, so that it can be told from the
// person. One thread hands over (the output's, or a monitor's; one at a time), one reads (the line's worker), in step
// with the microphone's own samples: so many of those, so many of these. Neither waits or allocates.
//
// Sound comes and goes in pieces, by two clocks. Where nothing lies ready the reader gets zeros, and those keep a small
// stock from then on; where the stock never falls under kMostStock for some seconds (the playing clock is faster, or
// the microphone lost samples), it is cut back. Each of these shifts the far end against the microphone by that much,
// seldom; whoever compares the two finds the delay anew. Samples are 48 kHz mono.
#include "common/signal/spsc_ring.h"

#include <atomic>
#include <chrono>
#include <cstdint>
#include <limits>
#include <span>

namespace vh::sound
{

class FarEnd
{
public:
    static constexpr std::size_t kPrime = 480;      ///< after zeros: this much more than is asked for must lie ready
    static constexpr std::size_t kMostStock = 1920; ///< 40 ms
    static constexpr std::size_t kStock = 960;      ///< what it is cut back to
    static constexpr std::uint64_t kWindow = 96'000;

    FarEnd() : m_ring(65'536) {}

    /// Writer's thread. What no longer fits (nobody reads) is left out.
    void hand(std::span<const float> samples) noexcept { m_ring.write(samples); }

    /// Reader's thread, or before it runs: a microphone has been opened; what was played before is of no use.
    void begin() noexcept;
    /// Reader's thread: as many as the microphone brought.
    void read(std::span<float> into) noexcept;

    /// A monitor hears what is played as late as a microphone may, or later: the microphone's samples are held back by
    /// this much before they are compared. Set before the microphone is opened.
    void setMicrophoneDelay(std::chrono::milliseconds delay) { m_delayMs = static_cast<int>(delay.count()); }
    [[nodiscard]] std::chrono::milliseconds microphoneDelay() const { return std::chrono::milliseconds(m_delayMs); }
    /// False: headphones; nothing that is played can reach the microphone, and read() gives zeros. Any thread.
    void setLeaks(bool yes) { m_leaks = yes; }
    [[nodiscard]] bool leaks() const { return m_leaks; }

    /// Any thread: how many times it ran dry while sound was flowing, and how many samples were cut out.
    [[nodiscard]] std::uint64_t ranDry() const { return m_ranDry.load(std::memory_order_relaxed); }
    [[nodiscard]] std::uint64_t cutOut() const { return m_cutOut.load(std::memory_order_relaxed); }

private:
    void discard(std::size_t count) noexcept;
    void watchStock(std::size_t left, std::size_t step) noexcept;

    SpscRing m_ring;
    std::atomic<int> m_delayMs{0};
    std::atomic<bool> m_leaks{true};
    std::atomic<std::uint64_t> m_ranDry{0};
    std::atomic<std::uint64_t> m_cutOut{0};

    bool m_flowing = false; ///< the reader's, as all below
    std::size_t m_least = std::numeric_limits<std::size_t>::max();
    std::uint64_t m_window = 0;
};

} // namespace vh::sound
