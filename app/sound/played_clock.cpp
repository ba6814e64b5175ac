#include "app/sound/played_clock.h"

#include <algorithm>
#include <cmath>

namespace vh::sound
{

void PlayedClock::restart()
{
    m_queue.drain([](const Piece&) {});
    m_pieces.clear();
    m_before.reset();
    m_any = false;
    m_latency = 0;
    m_played = 0;
    m_last = 0;
}

void PlayedClock::note(Micros now, std::size_t samples, Micros untilHeard, std::uint64_t streamEnd) noexcept
{
    const double zero = static_cast<double>((now + untilHeard).count()) - static_cast<double>(m_played) * 1e6 / kRateHz;
    const bool first = !m_any.load(std::memory_order_relaxed);
    const double off = zero - m_smoothZero;
    m_smoothZero = first || std::abs(off) > static_cast<double>(kJump.count()) ? zero : m_smoothZero + off * kSmoothing;
    m_zero.store(std::llround(m_smoothZero), std::memory_order_relaxed);
    m_latency.store(untilHeard.count(), std::memory_order_relaxed);
    m_played += samples;
    m_queue.push({m_played, streamEnd});
    m_any.store(true, std::memory_order_release);
}

std::optional<std::uint64_t> PlayedClock::heardUpTo(Micros now)
{
    if (!m_any.load(std::memory_order_acquire))
        return std::nullopt;
    m_queue.drain([this](const Piece& piece) { m_pieces.push_back(piece); });
    const double gone = static_cast<double>(now.count() - m_zero.load(std::memory_order_relaxed)) * kRateHz / 1e6;
    const auto played = static_cast<std::uint64_t>(std::max(gone, 0.0));
    while (!m_pieces.empty() && m_pieces.front().playedEnd <= played) {
        m_before = m_pieces.front();
        m_pieces.pop_front();
    }
    std::uint64_t heard = m_before ? m_before->streamEnd : 0;
    if (gone > 0 && !m_pieces.empty()) {
        const Piece& sounding = m_pieces.front();
        const std::uint64_t left = sounding.playedEnd - played;
        const std::uint64_t back = sounding.streamEnd - std::min(sounding.streamEnd, left);
        heard = std::max(heard, back); // counted back from its end, but a piece without the stream adds nothing
        if (m_before && sounding.streamEnd < m_before->streamEnd)
            heard = back; // another stream
    }
    if (heard < m_last && m_last - heard < kRateHz)
        return m_last;
    m_last = heard;
    return heard > 0 ? std::optional(heard) : std::nullopt;
}

} // namespace vh::sound
