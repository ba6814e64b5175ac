#include "server/net/log_bytes.h"

#include <algorithm>
#include <cassert>

namespace vh::net
{

LogBytes::LogBytes(LogLimits limits) : m_limits(limits)
{
    m_bytes.reserve(std::min<std::size_t>(limits.bytes, 16 * 1024));
}

LogPosition LogBytes::append(wire::Opcode opcode, std::string_view payload, FrameKind kind, SteadyTime now)
{
    constexpr std::size_t kMaxHeader = 10;
    assert(payload.size() <= m_limits.bytes / 4);
    if (m_bytes.size() + payload.size() + kMaxHeader > m_limits.bytes)
        dropOlderHalf();
    m_frames.push_back({m_bytes.size(), now, m_lastingEnd});
    wire::appendFrame(m_bytes, opcode, payload);
    if (kind == FrameKind::lasting)
        ++m_lastingEnd;
    return end();
}

void LogBytes::dropOlderHalf()
{
    const auto half = m_bytes.size() / 2;
    const auto keep = std::find_if(m_frames.begin(), m_frames.end(), [&](const Frame& f) { return f.offset >= half; });
    const auto cut = keep == m_frames.end() ? m_bytes.size() : keep->offset;
    m_first += static_cast<LogPosition>(keep - m_frames.begin());
    m_frames.erase(m_frames.begin(), keep);
    m_bytes.erase(0, cut);
    for (auto& frame : m_frames)
        frame.offset -= cut;
}

std::size_t LogBytes::offsetOf(LogPosition position) const
{
    assert(position >= m_first && position <= end());
    return position == end() ? m_bytes.size() : m_frames[position - m_first].offset;
}

std::string_view LogBytes::view(LogPosition from, LogPosition to) const
{
    const auto start = offsetOf(from);
    return std::string_view(m_bytes).substr(start, offsetOf(to) - start);
}

LogPosition LogBytes::frameHolding(LogPosition from, std::size_t offset) const
{
    const auto at = offsetOf(from) + offset;
    if (at >= m_bytes.size())
        return end();
    const auto after = std::upper_bound(m_frames.begin() + static_cast<std::ptrdiff_t>(from - m_first), m_frames.end(),
                                        at, [](std::size_t value, const Frame& frame) { return value < frame.offset; });
    return m_first + static_cast<LogPosition>(after - m_frames.begin()) - 1;
}

std::uint64_t LogBytes::lastingBefore(LogPosition position) const
{
    assert(position >= m_first && position <= end());
    return position == end() ? m_lastingEnd : m_frames[position - m_first].lastingBefore;
}

LogPosition LogBytes::firstSince(SteadyTime time) const
{
    const auto first = std::lower_bound(m_frames.begin(), m_frames.end(), time,
                                        [](const Frame& frame, SteadyTime value) { return frame.at < value; });
    return m_first + static_cast<LogPosition>(first - m_frames.begin());
}

LogPosition LogBytes::goOnFrom(LogPosition cursor, std::uint64_t lastingBeforeCursor, SteadyTime now)
{
    // Amortised: every frame is passed once, whoever asks.
    const auto oldest = now - m_limits.droppableAge;
    m_fresh = std::max(m_fresh, m_first);
    while (m_fresh < end() && m_frames[m_fresh - m_first].at < oldest)
        ++m_fresh;
    const bool fellOff = cursor < m_first;
    if (!fellOff && cursor >= m_fresh)
        return cursor;
    const bool onlyLasting = lastingBefore(m_fresh) - lastingBeforeCursor == m_fresh - cursor;
    if (!fellOff && onlyLasting)
        return cursor;
    // The newest frame is always sent, so that a loop which is itself late does not fall silent.
    const auto edge = std::max(firstSince(now - m_limits.liveEdge), std::max(m_first, m_fresh));
    return std::max(cursor, std::min(edge, end() - 1));
}

} // namespace vh::net
