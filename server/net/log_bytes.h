#pragma once
// The bytes of a hall's log: every live message framed once, end to end, with an index of the frames. A position is
// the number of a frame, so it always stands at a frame's border. Bounded in bytes: when full, the older half goes.
// Pure: no socket, no clock (the time of each frame is handed in and never goes back). Thread: one.
#include "common/wire/ws_frame.h"
#include "server/net/poller.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace vh::net
{

using LogPosition = std::uint64_t; ///< frames appended before this one, since the log was made

enum class FrameKind : std::uint8_t {
    lasting,  ///< who misses it is sent the state again (cue, place, board)
    droppable ///< sound: who misses it has missed it
};

struct LogLimits {
    std::size_t bytes = 256 * 1024;
    /// A reader that is further behind than this, with droppable frames before it, goes on at the live edge.
    std::chrono::milliseconds droppableAge{1000};
    /// The live edge: frames not older than this are still sent to a reader that jumped.
    std::chrono::milliseconds liveEdge{200};
};

class LogBytes
{
public:
    explicit LogBytes(LogLimits limits = {});

    /// Frames the payload and appends it; returns the position after it. A payload above a quarter of the limit is
    /// our own mistake (asserted).
    LogPosition append(wire::Opcode opcode, std::string_view payload, FrameKind kind, SteadyTime now);

    [[nodiscard]] LogPosition begin() const { return m_first; }
    [[nodiscard]] LogPosition end() const { return m_first + m_frames.size(); }
    [[nodiscard]] std::size_t byteCount() const { return m_bytes.size(); }

    /// The frames [from, to), end to end. begin() <= from <= to <= end(). Valid until the next append.
    [[nodiscard]] std::string_view view(LogPosition from, LogPosition to) const;
    /// The frame in which byte `offset` of view(from, end()) lies; end() when it lies behind the last one.
    [[nodiscard]] LogPosition frameHolding(LogPosition from, std::size_t offset) const;
    /// Lasting frames among all before `position`, since the log was made.
    [[nodiscard]] std::uint64_t lastingBefore(LogPosition position) const;

    /// Where a reader standing at `cursor` goes on: there, or at the live edge when it fell off the tail or is too far
    /// behind for its sound to be worth hearing. `lastingBeforeCursor` as lastingBefore() said when it got there.
    [[nodiscard]] LogPosition goOnFrom(LogPosition cursor, std::uint64_t lastingBeforeCursor, SteadyTime now);

private:
    struct Frame {
        std::size_t offset; ///< in m_bytes
        SteadyTime at;
        std::uint64_t lastingBefore;
    };
    [[nodiscard]] std::size_t offsetOf(LogPosition position) const;
    [[nodiscard]] LogPosition firstSince(SteadyTime time) const;
    void dropOlderHalf();

    LogLimits m_limits;
    std::string m_bytes;
    std::vector<Frame> m_frames;
    LogPosition m_first = 0;
    LogPosition m_fresh = 0; ///< everything before it is older than droppableAge
    std::uint64_t m_lastingEnd = 0;
};

} // namespace vh::net
