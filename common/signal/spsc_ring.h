#pragma once
// Samples from one thread to another: capture thread -> meter worker. Preallocated; write and read are wait-free and
// never allocate, lock or block. Exactly one thread writes and exactly one reads; both may be any thread, and the
// owner outlives both. When it is full, write takes what fits and counts the rest as lost: a late worker loses new
// sound rather than tearing old.
#include <algorithm>
#include <atomic>
#include <bit>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace vh
{

class SpscRing
{
public:
    /// Room for at least `capacity` samples (rounded up to a power of two).
    explicit SpscRing(std::size_t capacity) : m_samples(std::bit_ceil(std::max<std::size_t>(capacity, 1))) {}
    SpscRing(const SpscRing&) = delete;
    SpscRing& operator=(const SpscRing&) = delete;

    [[nodiscard]] std::size_t capacity() const { return m_samples.size(); }

    /// Writer. How many were taken, from the front; fewer than given means the ring was full.
    std::size_t write(std::span<const float> samples)
    {
        const std::uint64_t at = m_written.load(std::memory_order_relaxed);
        if (capacity() - (at - m_readSeen) < samples.size())
            m_readSeen = m_read.load(std::memory_order_acquire);
        const std::size_t room = capacity() - static_cast<std::size_t>(at - m_readSeen);
        const std::size_t count = std::min(room, samples.size());
        const std::size_t start = static_cast<std::size_t>(at) & (capacity() - 1);
        const std::size_t head = std::min(count, capacity() - start);
        std::copy_n(samples.data(), head, m_samples.data() + start);
        std::copy_n(samples.data() + head, count - head, m_samples.data());
        m_written.store(at + count, std::memory_order_release);
        if (count < samples.size())
            m_lost.fetch_add(samples.size() - count, std::memory_order_relaxed);
        return count;
    }

    /// Reader. How many were put into `into`, in order; fewer than asked for means the ring is empty now.
    std::size_t read(std::span<float> into)
    {
        const std::uint64_t at = m_read.load(std::memory_order_relaxed);
        if (m_writtenSeen - at < into.size())
            m_writtenSeen = m_written.load(std::memory_order_acquire);
        const std::size_t count = std::min(static_cast<std::size_t>(m_writtenSeen - at), into.size());
        const std::size_t start = static_cast<std::size_t>(at) & (capacity() - 1);
        const std::size_t head = std::min(count, capacity() - start);
        std::copy_n(m_samples.data() + start, head, into.data());
        std::copy_n(m_samples.data(), count - head, into.data() + head);
        m_read.store(at + count, std::memory_order_release);
        return count;
    }

    /// Reader. How many lie ready now; more may come meanwhile.
    [[nodiscard]] std::size_t ready() const
    {
        return static_cast<std::size_t>(m_written.load(std::memory_order_acquire) -
                                        m_read.load(std::memory_order_relaxed));
    }

    /// Any thread: samples refused so far because the ring was full.
    [[nodiscard]] std::uint64_t lost() const { return m_lost.load(std::memory_order_relaxed); }

private:
    // Each side keeps its own index and its last sight of the other's on its own cache line.
    static constexpr std::size_t kCacheLine = 64;

    std::vector<float> m_samples;
    alignas(kCacheLine) std::atomic<std::uint64_t> m_written{0};
    std::uint64_t m_readSeen = 0;
    std::atomic<std::uint64_t> m_lost{0};
    alignas(kCacheLine) std::atomic<std::uint64_t> m_read{0};
    std::uint64_t m_writtenSeen = 0;
};

} // namespace vh
