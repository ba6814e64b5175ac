#include "server/net/hall_log.h"

#include "server/net/connection.h"

#include <cassert>

namespace vh::net
{

namespace
{
constexpr std::size_t kSlice = 64;
}

HallLog::HallLog(Loop& loop, LogLimits limits) : m_loop(loop), m_bytes(limits) {}

HallLog::~HallLog()
{
    while (!m_members.empty())
        m_members.back()->detach();
}

LogPosition HallLog::append(wire::Opcode opcode, std::string_view payload, FrameKind kind)
{
    assert(m_loop.isHere());
    const auto position = m_bytes.append(opcode, payload, kind, m_loop.now());
    if (!m_flushing && !m_members.empty()) {
        m_flushing = true;
        m_next = 0;
        postFlush();
    }
    return position;
}

void HallLog::add(Connection& connection)
{
    connection.m_memberAt = m_members.size();
    m_members.push_back(&connection);
}

void HallLog::remove(Connection& connection)
{
    const auto put = [this](Connection* member, std::size_t at) {
        m_members[at] = member;
        member->m_memberAt = at;
    };
    auto hole = connection.m_memberAt;
    if (hole < m_next) {
        // Nobody may slip from the part still to be visited into the part that has been.
        --m_next;
        put(m_members[m_next], hole);
        hole = m_next;
    }
    put(m_members.back(), hole);
    m_members.pop_back();
}

void HallLog::postFlush()
{
    m_loop.post([this, alive = std::weak_ptr(m_alive)] {
        if (!alive.expired())
            flushSlice();
    });
}

void HallLog::flushSlice()
{
    const std::weak_ptr<char> alive = m_alive;
    m_loop.now();
    if (m_next == 0)
        m_flushingFrom = m_bytes.end();
    for (std::size_t i = 0; i < kSlice && m_next < m_members.size(); ++i) {
        auto* member = m_members[m_next++];
        member->flush();
        if (alive.expired())
            return; // a handler ended the hall
    }
    if (m_next < m_members.size()) {
        postFlush();
        return;
    }
    m_next = 0;
    m_flushing = m_bytes.end() != m_flushingFrom;
    if (m_flushing)
        postFlush(); // more came while the round went on
}

} // namespace vh::net
