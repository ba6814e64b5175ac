#pragma once
// The one writer of a connection: log frames, private frames, ping, pong and close leave through pump() and through
// nothing else. What is under way ("in hand") is always finished first; the cursor therefore stands at a frame's border
// whenever it may jump. Limits: private frames in bytes (see OutgoingLimits); newest-wins slots hold one each.
// Thread: the loop's. It calls nobody back.
#include "server/net/counters.h"
#include "server/net/log_bytes.h"
#include "server/net/stream.h"

#include <memory>
#include <vector>

namespace vh::net
{

/// A whole frame, made once and shared by every connection it goes to.
using FrameBytes = std::shared_ptr<const std::string>;
FrameBytes makeFrame(wire::Opcode opcode, std::string_view payload);

/// Which limit a private frame counts against: everyday answers, or the large parts a home fetched by name.
enum class Weight : std::uint8_t { ordinary, bulk };

struct OutgoingLimits {
    std::size_t ordinaryBytes = 256 * 1024;
    std::size_t bulkBytes = 1024 * 1024;
};

struct Skipped {
    std::uint64_t lasting = 0;
    std::uint64_t droppable = 0;
};

class Outgoing
{
public:
    enum class Pumped { drained, blocked, blockedOnRead, failed, finished };

    /// From the end of `log` on, or from its beginning. Null: no log.
    void follow(LogBytes* log, LogPosition from);
    [[nodiscard]] LogBytes* log() const { return m_log; }
    [[nodiscard]] LogPosition cursor() const { return m_cursor; }

    /// False: the limit of this weight is passed, the frame was not taken.
    [[nodiscard]] bool push(FrameBytes frame, LogPosition after, Weight weight, const OutgoingLimits& limits);
    /// Replaces what waits in the slot; true when something was replaced.
    bool pushNewest(std::uint8_t slot, FrameBytes frame);
    /// Bytes that are no frame: the answer to the upgrade.
    void pushRaw(FrameBytes bytes);
    void ping() { m_pingDue = true; }
    /// Only the latest ping need be answered (RFC 6455 section 5.5.3).
    void pong(std::string_view payload) { m_pong = makeFrame(wire::Opcode::pong, payload); }
    /// Drops everything that is not in hand; this frame is the last. Null: nothing more after what is in hand.
    void finish(FrameBytes closeFrame);

    /// Writes until there is nothing left, the socket is full, or it failed.
    Pumped pump(Stream& stream, SteadyTime now, Counters& counters);
    /// What was jumped over since the last call. Only to be asked after a pump, when there is room again.
    [[nodiscard]] bool hasSkipped() const { return m_skipped.lasting + m_skipped.droppable > 0; }
    Skipped takeSkipped() { return std::exchange(m_skipped, {}); }
    [[nodiscard]] std::size_t privateBytes() const { return m_waiting[0] + m_waiting[1]; }

private:
    struct Private {
        FrameBytes frame;
        LogPosition after;
        Weight weight;
    };
    struct Newest {
        std::uint8_t slot;
        FrameBytes frame;
    };
    enum class Step { wrote, nothing, blocked, blockedOnRead, failed };

    Step writeInHand(Stream& stream, Counters& counters);
    Step writeLog(Stream& stream, Counters& counters);
    void catchUp(SteadyTime now, Counters& counters);
    bool takeNext();
    void takeInHand(FrameBytes frame);
    void advanceTo(LogPosition position);

    LogBytes* m_log = nullptr;
    LogPosition m_cursor = 0;
    std::uint64_t m_lastingBefore = 0; ///< of the cursor
    FrameBytes m_inHand;
    std::size_t m_inHandDone = 0;
    std::vector<Private> m_private;
    std::size_t m_privateNext = 0;
    std::size_t m_waiting[2] = {0, 0}; ///< bytes, by weight
    std::vector<Newest> m_newest;
    FrameBytes m_pong;
    FrameBytes m_closeFrame;
    Skipped m_skipped;
    bool m_pingDue = false;
    bool m_finishing = false;
};

} // namespace vh::net
