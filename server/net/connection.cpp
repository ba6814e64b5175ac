#include "server/net/connection.h"

#include <cassert>
#include <utility>

namespace vh::net
{

namespace
{

using wire::CloseCode;
using Kind = wire::MessageReader::Kind;

/// TLS records read for one connection before the others have their turn.
constexpr int kReadsInARow = 4;

std::uint64_t nextId()
{
    static std::atomic<std::uint64_t> last{0};
    return ++last;
}

CloseReason reasonOf(CloseCode violation)
{
    if (violation == CloseCode::tooBig)
        return CloseReason::tooBig;
    return violation == CloseCode::notUtf8 ? CloseReason::badText : CloseReason::badFrame;
}

} // namespace

Connection::Connection(Loop& loop, int descriptor, std::string peerAddress, std::shared_ptr<ConnectionSetup> setup)
    : m_loop(&loop), m_setup(std::move(setup)), m_stream(descriptor, m_setup->tls.get(), Stream::Side::server),
      m_reader(wire::MessageReader::From::client, m_setup->limits.firstMessageBytes), m_address(std::move(peerAddress)),
      m_lastByte(std::chrono::steady_clock::now()), m_deadline(m_lastByte + m_setup->limits.handshake), m_id(nextId()),
      m_phase(m_setup->tls ? Phase::tls : Phase::head)
{
    m_setup->alive.fetch_add(1, std::memory_order_relaxed);
}

Connection::~Connection()
{
    if (m_log)
        m_log->remove(*this);
    if (m_registered)
        m_loop->poller().remove(m_stream.descriptor(), *this);
    m_setup->alive.fetch_sub(1, std::memory_order_relaxed);
}

void Connection::start()
{
    m_loop->keep(shared_from_this());
    m_registered = m_loop->poller().add(m_stream.descriptor(), *this, EPOLLIN);
    if (!m_registered)
        end(CloseReason::lost);
}

// ---- what a handler asks for

void Connection::send(FrameBytes frame, LogPosition after, Weight weight)
{
    assert(m_loop->isHere());
    if (m_phase != Phase::open)
        return;
    if (m_out.push(std::move(frame), after, weight, m_setup->limits.outgoing))
        postFlush();
    else
        close(CloseCode::policy, nameOf(CloseReason::tooSlow), CloseReason::tooSlow);
}

void Connection::sendText(std::string_view json, LogPosition after, Weight weight)
{
    send(makeFrame(wire::Opcode::text, json), after, weight);
}

void Connection::sendBinary(std::string_view payload, LogPosition after, Weight weight)
{
    send(makeFrame(wire::Opcode::binary, payload), after, weight);
}

void Connection::sendNewest(std::uint8_t slot, FrameBytes frame)
{
    if (m_phase != Phase::open)
        return;
    if (m_out.pushNewest(slot, std::move(frame)))
        ++m_loop->counters().droppedNewest;
    postFlush();
}

void Connection::close(CloseCode code, std::string_view reason, CloseReason why)
{
    assert(m_loop->isHere());
    if (m_phase == Phase::open)
        beginClosing(makeFrame(wire::Opcode::close, wire::closePayload(code, reason)), why);
    else if (m_phase != Phase::closing)
        end(why);
}

void Connection::attach(HallLog& log, From from)
{
    assert(m_loop == &log.loop() && m_loop->isHere());
    detach();
    if (m_phase != Phase::open)
        return;
    m_log = &log;
    m_out.follow(&log.bytes(), from == From::end ? log.end() : log.bytes().begin());
    log.add(*this);
    if (from == From::begin)
        postFlush();
}

void Connection::detach()
{
    if (!m_log)
        return;
    m_log->remove(*this);
    m_log = nullptr;
    m_out.follow(nullptr, 0);
}

void Connection::setHandler(std::shared_ptr<ConnectionHandler> handler)
{
    // The old one may be on the stack.
    m_loop->post([old = std::exchange(m_handler, std::move(handler))] {});
}

void Connection::moveTo(Loop& loop, std::function<void(Connection&)> arrived)
{
    assert(m_loop->isHere() && !m_log && m_phase == Phase::open && !m_moving);
    m_moving = true;
    m_loop->poller().remove(m_stream.descriptor(), *this);
    m_registered = false;
    --m_loop->counters().open;
    // The last of it is done when the stack is gone: the reader's view may still be in use, and bytes left over kept.
    auto self = std::static_pointer_cast<Connection>(m_loop->release(*this));
    m_loop->post([self = std::move(self), &loop, arrived = std::move(arrived)] {
        loop.post([self, &loop, arrived] { self->arrive(loop, arrived); });
    });
}

void Connection::arrive(Loop& loop, const std::function<void(Connection&)>& arrived)
{
    m_loop = &loop;
    m_moving = false;
    m_flushPosted = false;
    m_loop->keep(shared_from_this());
    ++m_loop->counters().open;
    m_blocked = false;
    m_registered = m_loop->poller().add(m_stream.descriptor(), *this, EPOLLIN);
    arrived(*this);
    if (!m_registered) {
        end(CloseReason::lost);
        return;
    }
    auto unread = std::exchange(m_head, {});
    if (!unread.empty())
        readMessages(unread);
    if (m_phase == Phase::open && !m_moving && m_stream.hasBuffered())
        readReady();
    postFlush();
}

// ---- writing

void Connection::postFlush()
{
    if (m_flushPosted || m_blocked || m_moving)
        return;
    m_flushPosted = true;
    // Posted before a move begins, it also runs before the move is made: on this loop's thread either way.
    m_loop->post([weak = weak_from_this()] {
        const auto self = weak.lock();
        if (!self || self->m_moving)
            return;
        self->m_flushPosted = false;
        self->flush();
    });
}

void Connection::wantWritable(bool wanted)
{
    if (m_blocked == wanted)
        return;
    m_blocked = wanted;
    m_loop->poller().change(m_stream.descriptor(), *this, EPOLLIN | (wanted ? EPOLLOUT : 0U));
}

void Connection::flush()
{
    if (m_blocked || m_moving || m_phase == Phase::closed || m_phase == Phase::tls)
        return;
    for (;;) {
        const auto pumped = m_out.pump(m_stream, m_loop->tick(), m_loop->counters());
        switch (pumped) {
        case Outgoing::Pumped::drained:
            break;
        case Outgoing::Pumped::blocked:
            wantWritable(true);
            return;
        case Outgoing::Pumped::blockedOnRead:
            return;
        case Outgoing::Pumped::failed:
            end(CloseReason::lost);
            return;
        case Outgoing::Pumped::finished:
            m_stream.finishWriting();
            return;
        }
        if (!m_out.hasSkipped() || m_phase != Phase::open)
            return;
        m_handler->onSkipped(*this, m_out.takeSkipped());
        if (m_phase != Phase::open || m_moving)
            return;
    }
}

// ---- reading

void Connection::onReady(std::uint32_t events)
{
    if (m_phase == Phase::tls) {
        doTls();
        return;
    }
    if ((events & EPOLLOUT) != 0) {
        wantWritable(false);
        flush();
    }
    if ((events & ~static_cast<std::uint32_t>(EPOLLOUT)) != 0 && m_phase != Phase::closed && !m_moving)
        readReady();
}

void Connection::readReady()
{
    for (int i = 0; i < (m_stream.isTls() ? kReadsInARow : 1); ++i) {
        const auto buffer = m_loop->readBuffer();
        const auto result = m_stream.read(buffer);
        if (result.state == IoState::wantRead || result.state == IoState::wantWrite)
            return;
        if (result.state != IoState::done) {
            end(CloseReason::lost);
            return;
        }
        m_lastByte = m_loop->tick();
        m_pinged = false;
        m_loop->counters().bytesIn += result.bytes;
        const auto bytes = buffer.first(result.bytes);
        if (m_phase == Phase::head)
            readHead(bytes);
        else if (m_phase == Phase::open)
            readMessages(bytes);
        if (m_phase == Phase::closed || m_moving)
            return;
        if (m_stream.pendingWrite() > 0)
            flush(); // TLS may have had to read before it could go on writing
        if (m_phase == Phase::closed || m_moving)
            return;
    }
    if (m_stream.hasBuffered()) {
        m_loop->post([weak = weak_from_this()] {
            const auto self = weak.lock();
            if (self && self->m_phase != Phase::closed && !self->m_moving)
                self->readReady();
        });
    }
}

void Connection::readMessages(std::span<char> bytes)
{
    while (!bytes.empty() && m_phase == Phase::open) {
        if (m_moving) {
            m_head.append(bytes.data(), bytes.size());
            return;
        }
        if (!handle(m_reader.next(bytes)))
            return;
    }
}

bool Connection::handle(const wire::MessageReader::Event& event)
{
    switch (event.kind) {
    case Kind::needMore:
        return false;
    case Kind::text:
        ++m_loop->counters().messagesIn;
        m_handler->onText(*this, event.payload);
        return true;
    case Kind::binary:
        ++m_loop->counters().messagesIn;
        m_handler->onBinary(*this, {reinterpret_cast<const std::uint8_t*>(event.payload.data()), event.payload.size()});
        return true;
    case Kind::ping:
        m_out.pong(event.payload);
        postFlush();
        return true;
    case Kind::pong:
        return true;
    case Kind::close:
        beginClosing(makeFrame(wire::Opcode::close, wire::closePayload(event.code, {})), CloseReason::byPeer);
        return false;
    case Kind::violation:
        beginClosing(makeFrame(wire::Opcode::close, wire::closePayload(event.code, event.wrong)), reasonOf(event.code));
        return false;
    }
    return false;
}

// ---- deadlines and the end

void Connection::onStopping()
{
    close(wire::CloseCode::goingAway, "The relay is restarting.", CloseReason::stopping);
}

void Connection::onSweep(SteadyTime now)
{
    if (m_phase == Phase::open) {
        const auto quiet = now - m_lastByte;
        if (quiet > m_setup->limits.silentAfter) {
            close(CloseCode::policy, nameOf(CloseReason::silent), CloseReason::silent);
        } else if (quiet > m_setup->limits.pingAfter && !m_pinged) {
            m_pinged = true;
            m_out.ping();
            postFlush();
        }
        return;
    }
    if (now > m_deadline && m_phase != Phase::closed)
        end(m_phase == Phase::closing ? CloseReason::lost : CloseReason::handshakeTimeout);
}

/// The last frame leaves, then we stop writing and read what still comes until the peer is done or the deadline.
void Connection::beginClosing(FrameBytes last, CloseReason why)
{
    if (m_phase == Phase::open)
        --m_loop->counters().open;
    detach();
    m_phase = Phase::closing;
    m_deadline = std::chrono::steady_clock::now() + m_setup->limits.closing;
    m_out.finish(std::move(last));
    tellClosed(why);
    postFlush();
}

/// Counted and told once, and never from inside a call of the handler.
void Connection::tellClosed(CloseReason why)
{
    ++m_loop->counters().closed[static_cast<std::size_t>(why)];
    if (auto handler = std::exchange(m_handler, nullptr)) {
        m_loop->post([self = shared_from_this(), handler = std::move(handler), why] { handler->onClosed(*self, why); });
    }
}

void Connection::onLoopEnds()
{
    detach();
    m_phase = Phase::closed;
    if (m_registered)
        m_loop->poller().remove(m_stream.descriptor(), *this);
    m_registered = false;
    m_handler.reset();
}

void Connection::end(CloseReason why)
{
    if (m_phase == Phase::closed)
        return;
    const bool told = m_phase == Phase::closing;
    if (m_phase == Phase::open)
        --m_loop->counters().open;
    detach();
    m_phase = Phase::closed;
    if (m_registered)
        m_loop->poller().remove(m_stream.descriptor(), *this);
    m_registered = false;
    if (!told)
        tellClosed(why);
    m_loop->bury(*this);
}

} // namespace vh::net
