#pragma once
// One hall's append-only log and the connections that follow it. append() frames the message once and schedules one
// flush for the whole burst; the flush visits the connections in slices of 64, re-posted to the loop so that reading
// goes on between them. Thread: the loop's. Connections attach and detach themselves (Connection::attach); the log may
// go before they do.
#include "server/net/log_bytes.h"
#include "server/net/loop.h"

namespace vh::net
{

class Connection;

class HallLog
{
public:
    explicit HallLog(Loop& loop, LogLimits limits = {});
    ~HallLog();
    HallLog(const HallLog&) = delete;
    HallLog& operator=(const HallLog&) = delete;

    /// Text (JSON) or binary (sound, roster). Returns the position after it: `after` for a private frame that must
    /// not come before it.
    LogPosition append(wire::Opcode opcode, std::string_view payload, FrameKind kind);

    [[nodiscard]] LogPosition end() const { return m_bytes.end(); }
    [[nodiscard]] LogBytes& bytes() { return m_bytes; }
    [[nodiscard]] std::size_t memberCount() const { return m_members.size(); }
    [[nodiscard]] Loop& loop() { return m_loop; }

private:
    friend class Connection;
    void add(Connection& connection);
    void remove(Connection& connection);
    void postFlush();
    void flushSlice();

    Loop& m_loop;
    LogBytes m_bytes;
    std::vector<Connection*> m_members;
    std::size_t m_next = 0;         ///< next member of the flush under way
    LogPosition m_flushingFrom = 0; ///< the log's end when this round of the flush began
    bool m_flushing = false;
    std::shared_ptr<char> m_alive = std::make_shared<char>();
};

} // namespace vh::net
