#include "server/net/outgoing.h"

#include <algorithm>

namespace vh::net
{

namespace
{

/// What a queued frame costs beside its bytes.
constexpr std::size_t kEntryBytes = 64;
/// A TLS record under way may not be abandoned, so its size is sound that cannot be skipped any more.
constexpr std::size_t kLogRecordBytes = 4096;

const FrameBytes& pingFrame()
{
    static const FrameBytes frame = makeFrame(wire::Opcode::ping, {});
    return frame;
}

} // namespace

FrameBytes makeFrame(wire::Opcode opcode, std::string_view payload)
{
    auto bytes = std::make_shared<std::string>();
    bytes->reserve(payload.size() + 10);
    wire::appendFrame(*bytes, opcode, payload);
    return bytes;
}

void Outgoing::follow(LogBytes* log, LogPosition from)
{
    m_log = log;
    if (!log)
        return;
    m_cursor = from;
    m_lastingBefore = log->lastingBefore(from);
}

bool Outgoing::push(FrameBytes frame, LogPosition after, Weight weight, const OutgoingLimits& limits)
{
    auto& waiting = m_waiting[static_cast<std::size_t>(weight)];
    const auto limit = weight == Weight::bulk ? limits.bulkBytes : limits.ordinaryBytes;
    const auto cost = frame->size() + kEntryBytes;
    if (waiting + cost > limit)
        return false;
    waiting += cost;
    if (m_log)
        after = std::min(after, m_log->end()); // a frame that waits for what never comes would block all after it
    m_private.push_back({std::move(frame), after, weight});
    return true;
}

bool Outgoing::pushNewest(std::uint8_t slot, FrameBytes frame)
{
    for (auto& waiting : m_newest) {
        if (waiting.slot == slot) {
            waiting.frame = std::move(frame);
            return true;
        }
    }
    m_newest.push_back({slot, std::move(frame)});
    return false;
}

void Outgoing::pushRaw(FrameBytes bytes)
{
    takeInHand(std::move(bytes));
}

void Outgoing::finish(FrameBytes closeFrame)
{
    m_finishing = true;
    m_closeFrame = std::move(closeFrame);
    m_log = nullptr;
    m_private.clear();
    m_privateNext = 0;
    m_waiting[0] = m_waiting[1] = 0;
    m_newest.clear();
    m_pong.reset();
    m_pingDue = false;
}

void Outgoing::takeInHand(FrameBytes frame)
{
    m_inHand = std::move(frame);
    m_inHandDone = 0;
}

void Outgoing::advanceTo(LogPosition position)
{
    m_cursor = position;
    m_lastingBefore = m_log->lastingBefore(position);
}

Outgoing::Pumped Outgoing::pump(Stream& stream, SteadyTime now, Counters& counters)
{
    for (;;) {
        auto step = Step::nothing;
        if (m_inHand) {
            step = writeInHand(stream, counters);
        } else {
            if (m_log && !m_finishing)
                catchUp(now, counters);
            if (takeNext()) {
                ++counters.privateOut;
                continue;
            }
            if (m_finishing)
                return Pumped::finished;
            if (m_log && m_cursor < m_log->end())
                step = writeLog(stream, counters);
        }
        switch (step) {
        case Step::wrote:
            break;
        case Step::nothing:
            return Pumped::drained;
        case Step::blocked:
            return Pumped::blocked;
        case Step::blockedOnRead:
            return Pumped::blockedOnRead;
        case Step::failed:
            return Pumped::failed;
        }
    }
}

/// At a frame's border: what goes before the next log frame, in order of urgency. Droppable news goes last.
bool Outgoing::takeNext()
{
    if (m_pong) {
        takeInHand(std::exchange(m_pong, nullptr));
        return true;
    }
    if (m_pingDue) {
        m_pingDue = false;
        takeInHand(pingFrame());
        return true;
    }
    if (m_finishing) {
        if (!m_closeFrame)
            return false;
        takeInHand(std::exchange(m_closeFrame, nullptr));
        return true;
    }
    if (m_privateNext < m_private.size()) {
        auto& next = m_private[m_privateNext];
        if (!m_log || next.after <= m_cursor) {
            m_waiting[static_cast<std::size_t>(next.weight)] -= next.frame->size() + kEntryBytes;
            takeInHand(std::move(next.frame));
            if (++m_privateNext == m_private.size()) {
                m_private = {};
                m_privateNext = 0;
            }
            return true;
        }
    }
    if (!m_newest.empty() && (!m_log || m_cursor == m_log->end())) {
        takeInHand(std::move(m_newest.front().frame));
        m_newest.erase(m_newest.begin());
        return true;
    }
    return false;
}

Outgoing::Step Outgoing::writeInHand(Stream& stream, Counters& counters)
{
    const auto rest = std::string_view(*m_inHand).substr(m_inHandDone);
    const auto result = stream.write(rest);
    switch (result.state) {
    case IoState::wantWrite:
        return Step::blocked;
    case IoState::wantRead:
        return Step::blockedOnRead;
    case IoState::ended:
    case IoState::failed:
        return Step::failed;
    case IoState::done:
        break;
    }
    counters.bytesOut += result.bytes;
    m_inHandDone += result.bytes;
    if (m_inHandDone == m_inHand->size())
        m_inHand.reset();
    else if (!stream.isTls())
        return Step::blocked;
    return Step::wrote;
}

Outgoing::Step Outgoing::writeLog(Stream& stream, Counters& counters)
{
    const auto start = m_cursor;
    const bool privateWaits = m_privateNext < m_private.size();
    const auto limit = privateWaits ? std::min(m_log->end(), m_private[m_privateNext].after) : m_log->end();
    auto bytes = m_log->view(start, limit);
    if (stream.isTls())
        bytes = bytes.substr(0, kLogRecordBytes);
    const auto result = stream.write(bytes);
    if (result.state == IoState::ended || result.state == IoState::failed)
        return Step::failed;

    // How far the line is committed: bytes written, and with TLS the record that is already made of them.
    const auto committed = result.state == IoState::done ? result.bytes : stream.pendingWrite();
    auto next = start;
    if (committed == bytes.size() && bytes.size() == m_log->view(start, limit).size()) {
        next = limit;
    } else if (committed > 0) {
        next = m_log->frameHolding(start, committed - 1) + 1;
    }
    counters.framesOut += next - start;
    if (result.state == IoState::done) {
        ++counters.logSends;
        counters.bytesOut += result.bytes;
    }
    const auto frames = m_log->view(start, next);
    if (result.bytes < frames.size()) {
        // The rest of the frame in hand goes with the connection, so that the cursor stands at a border.
        takeInHand(std::make_shared<const std::string>(frames.substr(result.bytes)));
    }
    advanceTo(next);
    if (result.state == IoState::wantRead)
        return Step::blockedOnRead;
    if (result.state == IoState::wantWrite || (result.bytes < bytes.size() && !stream.isTls()))
        return Step::blocked;
    return Step::wrote;
}

void Outgoing::catchUp(SteadyTime now, Counters& counters)
{
    if (m_cursor == m_log->end())
        return;
    const auto next = m_log->goOnFrom(m_cursor, m_lastingBefore, now);
    if (next == m_cursor)
        return;
    const auto lasting = m_log->lastingBefore(next) - m_lastingBefore;
    const auto droppable = next - m_cursor - lasting;
    m_skipped.lasting += lasting;
    m_skipped.droppable += droppable;
    counters.skippedLasting += lasting;
    counters.skippedDroppable += droppable;
    advanceTo(next);
}

} // namespace vh::net
