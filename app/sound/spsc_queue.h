#pragma once
// Values from one thread to another: one writes, one reads, nobody waits, nothing is allocated after construction.
// Full: the new value is dropped and counted. `Capacity` is a power of two.
#include <atomic>
#include <bit>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace vh::sound
{

template <class T, std::size_t Capacity>
class SpscQueue
{
    static_assert(std::has_single_bit(Capacity));

public:
    static constexpr std::size_t kCapacity = Capacity;
    SpscQueue() : m_values(kCapacity) {}

    /// Writer. False when it was dropped.
    bool push(const T& value) noexcept
    {
        const std::uint64_t written = m_written.load(std::memory_order_relaxed);
        if (written - m_read.load(std::memory_order_acquire) >= kCapacity) {
            m_dropped.fetch_add(1, std::memory_order_relaxed);
            return false;
        }
        m_values[written % kCapacity] = value;
        m_written.store(written + 1, std::memory_order_release);
        return true;
    }

    /// Reader: everything that lies there now, oldest first.
    template <class Sink>
    void drain(Sink&& sink)
    {
        std::uint64_t read = m_read.load(std::memory_order_relaxed);
        for (const std::uint64_t written = m_written.load(std::memory_order_acquire); read != written; ++read) {
            const T value = m_values[read % kCapacity];
            m_read.store(read + 1, std::memory_order_release); // free before the sink runs: it may take its time
            sink(value);
        }
    }

    [[nodiscard]] std::uint64_t dropped() const { return m_dropped.load(std::memory_order_relaxed); }

private:
    std::vector<T> m_values;
    alignas(64) std::atomic<std::uint64_t> m_written{0};
    alignas(64) std::atomic<std::uint64_t> m_read{0};
    std::atomic<std::uint64_t> m_dropped{0};
};

} // namespace vh::sound
