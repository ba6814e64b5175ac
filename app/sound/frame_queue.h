#pragma once
// Frames from the meter's thread to the GUI thread: one writes, one reads, nobody waits, nothing is allocated after
// construction. Full: the new frame is dropped and counted (40 s lie unread then; a reader that far behind is stuck).
#include "common/signal/voice_frame.h"

#include <atomic>
#include <cstdint>
#include <vector>

namespace vh::sound
{

class FrameQueue
{
public:
    static constexpr std::size_t kCapacity = 4096; ///< about 41 s; a power of two
    FrameQueue() : m_frames(kCapacity) {}

    void push(const VoiceFrame& frame) noexcept
    {
        const std::uint64_t written = m_written.load(std::memory_order_relaxed);
        if (written - m_read.load(std::memory_order_acquire) >= kCapacity) {
            m_dropped.fetch_add(1, std::memory_order_relaxed);
            return;
        }
        m_frames[written % kCapacity] = frame;
        m_written.store(written + 1, std::memory_order_release);
    }

    template <class Sink>
    void drain(Sink&& sink)
    {
        std::uint64_t read = m_read.load(std::memory_order_relaxed);
        for (const std::uint64_t written = m_written.load(std::memory_order_acquire); read != written; ++read) {
            const VoiceFrame frame = m_frames[read % kCapacity];
            m_read.store(read + 1, std::memory_order_release); // free before the sink runs: it may take its time
            sink(frame);
        }
    }

    [[nodiscard]] std::uint64_t dropped() const { return m_dropped.load(std::memory_order_relaxed); }

private:
    std::vector<VoiceFrame> m_frames;
    alignas(64) std::atomic<std::uint64_t> m_written{0};
    alignas(64) std::atomic<std::uint64_t> m_read{0};
    std::atomic<std::uint64_t> m_dropped{0};
};

} // namespace vh::sound
