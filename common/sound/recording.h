#pragma once
// A recording that a leader plays to her class, on its way from whoever decodes the file (the feeder) to the sender.
// 48 kHz mono floats through a ring of some seconds; feed it whenever there is room. Threads: one feeder, one sender;
// sounding() any. Nothing here allocates after construction or waits. A feeder that is late makes silence.
#include "common/signal/spsc_ring.h"

#include <array>
#include <atomic>

namespace vh
{

class Recording
{
public:
    explicit Recording(double seconds = 4) : m_ring(static_cast<std::size_t>(seconds * 48'000)) {}

    /// Feeder: how many were taken, from the front.
    std::size_t feed(std::span<const float> samples);
    /// Feeder: what was fed so far is not heard any more; what is fed from now on is a new recording.
    void stop() { m_dropUpTo.store(m_fed.load(std::memory_order_relaxed), std::memory_order_release); }

    /// Sender: adds what is there.
    void mixInto(std::span<float> samples, float gain = 1);

    /// Any thread: whether there is something left to be heard.
    [[nodiscard]] bool sounding() const;

private:
    /// From the sender's side, up to what was stopped.
    void drop();

    SpscRing m_ring;
    std::atomic<std::uint64_t> m_fed{0};
    std::atomic<std::uint64_t> m_dropUpTo{0};
    std::atomic<std::uint64_t> m_taken{0};
    std::array<float, 256> m_piece{};
};

} // namespace vh
