#pragma once
// Sound frames from the network's thread to the playback thread: a fixed ring of slots, wait-free on both sides. One
// thread puts, one takes; the owner outlives both. When it is full the new frame is refused: nobody is playing then,
// and what a player wakes up to is caught up with by dropping.
#include "common/base/clock.h"
#include "common/wire/binary.h"

#include <algorithm>
#include <array>
#include <atomic>
#include <memory>

namespace vh
{

struct SoundPacket {
    wire::SoundHead head;
    std::uint16_t size = 0;
    std::array<std::uint8_t, wire::kSoundBytes> bytes;

    [[nodiscard]] std::span<const std::uint8_t> payload() const { return std::span(bytes).first(size); }
    void set(const wire::SoundHead& newHead, std::span<const std::uint8_t> newPayload)
    {
        head = newHead;
        size = static_cast<std::uint16_t>(std::min(newPayload.size(), bytes.size()));
        std::copy_n(newPayload.data(), size, bytes.data());
    }
};

class PacketQueue
{
public:
    static constexpr std::size_t kSlots = 256; ///< five seconds: what a stall of a line lets loose at once

    /// Network's thread. False when full.
    bool put(const wire::SoundHead& head, std::span<const std::uint8_t> payload)
    {
        const std::uint64_t at = m_put.load(std::memory_order_relaxed);
        if (at - m_taken.load(std::memory_order_acquire) == kSlots)
            return false;
        (*m_slots)[at % kSlots].set(head, payload);
        m_put.store(at + 1, std::memory_order_release);
        return true;
    }
    /// Playback thread: the oldest, or null. It stays until pop().
    [[nodiscard]] const SoundPacket* front() const
    {
        const std::uint64_t at = m_taken.load(std::memory_order_relaxed);
        return m_put.load(std::memory_order_acquire) == at ? nullptr : &(*m_slots)[at % kSlots];
    }
    void pop() { m_taken.store(m_taken.load(std::memory_order_relaxed) + 1, std::memory_order_release); }

private:
    std::unique_ptr<std::array<SoundPacket, kSlots>> m_slots = std::make_unique<std::array<SoundPacket, kSlots>>();
    alignas(64) std::atomic<std::uint64_t> m_put{0};
    alignas(64) std::atomic<std::uint64_t> m_taken{0};
};

} // namespace vh
