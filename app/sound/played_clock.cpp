#include "app/sound/played_clock.h"

#include <algorithm>
#include <cmath>

namespace vh::sound
{

void PlayedClock::restart()
{
    m_queue.drain([](const Piece&) {});
    m_pieces.clear();
    m_before = {};
    m_any = false;
    m_latency = 0;
    m_played = 0;
    m_last = {};
}

void PlayedClock::note(Micros now, std::size_t samples, Micros untilHeard, HeardUpTo end) noexcept
{
    const double zero = static_cast<double>((now + untilHeard).count()) - static_cast<double>(m_played) * 1e6 / kRateHz;
    const bool first = !m_any.load(std::memory_order_relaxed);
    const double off = zero - m_smoothZero;
    m_smoothZero = first || std::abs(off) > static_cast<double>(kJump.count()) ? zero : m_smoothZero + off * kSmoothing;
    m_zero.store(std::llround(m_smoothZero), std::memory_order_relaxed);
    m_latency.store(untilHeard.count(), std::memory_order_relaxed);
    m_played += samples;
    m_queue.push({m_played, end});
    m_any.store(true, std::memory_order_release);
}

HeardUpTo PlayedClock::heardUpTo(Micros now)
{
    if (!m_any.load(std::memory_order_acquire))
        return {};
    m_queue.drain([this](const Piece& piece) { m_pieces.push_back(piece); });
    const double gone = static_cast<double>(now.count() - m_zero.load(std::memory_order_relaxed)) * kRateHz / 1e6;
    const auto played = static_cast<std::uint64_t>(std::max(gone, 0.0));
    while (!m_pieces.empty() && m_pieces.front().playedEnd <= played) {
        m_before = m_pieces.front().end;
        m_pieces.pop_front();
    }
    HeardUpTo heard = m_before;
    if (gone > 0 && !m_pieces.empty()) {
        const Piece& sounding = m_pieces.front();
        const std::uint64_t left = sounding.playedEnd - played; // counted back from its end
        const std::uint64_t at = sounding.end.sample - std::min(sounding.end.sample, left);
        if (sounding.end.stream != heard.stream)
            heard = {sounding.end.stream, at};
        else // a piece without any of the stream adds nothing
            heard.sample = std::max(heard.sample, at);
    }
    if (heard.stream == m_last.stream)
        heard.sample = std::max(heard.sample, m_last.sample);
    m_last = heard;
    return heard;
}

} // namespace vh::sound
