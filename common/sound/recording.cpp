#include "common/sound/recording.h"

#include <algorithm>

namespace vh
{

std::size_t Recording::feed(std::span<const float> samples)
{
    const std::size_t count = m_ring.write(samples);
    m_fed.store(m_fed.load(std::memory_order_relaxed) + count, std::memory_order_release);
    return count;
}

void Recording::drop()
{
    const std::uint64_t upTo = m_dropUpTo.load(std::memory_order_acquire);
    std::uint64_t taken = m_taken.load(std::memory_order_relaxed);
    while (taken < upTo) {
        const auto piece = std::span(m_piece).first(std::min<std::uint64_t>(m_piece.size(), upTo - taken));
        const std::size_t count = m_ring.read(piece);
        if (count == 0)
            break;
        taken += count;
    }
    m_taken.store(taken, std::memory_order_release);
}

void Recording::mixInto(std::span<float> samples, float gain)
{
    drop();
    while (!samples.empty()) {
        const auto piece = std::span(m_piece).first(std::min(m_piece.size(), samples.size()));
        const std::size_t count = m_ring.read(piece);
        for (std::size_t i = 0; i < count; ++i)
            samples[i] += gain * piece[i];
        m_taken.store(m_taken.load(std::memory_order_relaxed) + count, std::memory_order_release);
        if (count < piece.size())
            return;
        samples = samples.subspan(count);
    }
}

bool Recording::sounding() const
{
    const std::uint64_t gone =
        std::max(m_taken.load(std::memory_order_acquire), m_dropUpTo.load(std::memory_order_acquire));
    return m_fed.load(std::memory_order_acquire) > gone;
}

} // namespace vh
