#pragma once
// The newest MeterSnapshot, written by one thread and read whole by any other, without locks (a sequence lock: a reader
// that meets a write looks again). Payload words are atomics, so that a torn read is seen and never undefined.
// H.-J. Boehm, "Can seqlocks get along with programming language memory models?", MSPC 2012, for the orderings.
#include "app/sound/meter_snapshot.h"

#include <array>
#include <atomic>
#include <cstring>
#include <type_traits>

namespace vh::sound
{

class SnapshotBox
{
public:
    void store(const MeterSnapshot& snapshot) noexcept
    {
        std::array<std::uint64_t, kWords> words{};
        std::memcpy(words.data(), &snapshot, sizeof snapshot);
        const std::uint32_t sequence = m_sequence.load(std::memory_order_relaxed);
        m_sequence.store(sequence + 1, std::memory_order_relaxed); // odd: being written
        std::atomic_thread_fence(std::memory_order_release);
        for (std::size_t i = 0; i < kWords; ++i)
            m_words[i].store(words[i], std::memory_order_relaxed);
        m_sequence.store(sequence + 2, std::memory_order_release);
    }

    [[nodiscard]] MeterSnapshot load() const noexcept
    {
        std::array<std::uint64_t, kWords> words{};
        std::uint32_t before = 0;
        do {
            before = m_sequence.load(std::memory_order_acquire);
            for (std::size_t i = 0; i < kWords; ++i)
                words[i] = m_words[i].load(std::memory_order_relaxed);
            std::atomic_thread_fence(std::memory_order_acquire);
        } while ((before & 1U) != 0 || before != m_sequence.load(std::memory_order_relaxed));
        MeterSnapshot snapshot;
        std::memcpy(static_cast<void*>(&snapshot), words.data(), sizeof snapshot);
        return snapshot;
    }

private:
    static_assert(std::is_trivially_copyable_v<MeterSnapshot>);
    static constexpr std::size_t kWords = (sizeof(MeterSnapshot) + 7) / 8;

    std::atomic<std::uint32_t> m_sequence{0};
    std::array<std::atomic<std::uint64_t>, kWords> m_words{};
};

} // namespace vh::sound
