#include "server/net/ws_client.h"

#include <arpa/inet.h>
#include <cstring>
#include <netinet/in.h>
#include <netinet/tcp.h>
#include <openssl/rand.h>
#include <sys/socket.h>
#include <sys/un.h>

namespace vh::net
{

namespace
{

using wire::CloseCode;
using wire::Opcode;
using Kind = wire::MessageReader::Kind;

constexpr std::size_t kMaxHead = 16 * 1024;

void setOption(int descriptor, int level, int name, int value)
{
    ::setsockopt(descriptor, level, name, &value, sizeof value);
}

/// A socket on its way to the other side, or -1.
int beginConnecting(const ClientOptions& options)
{
    sockaddr_storage storage{};
    socklen_t size = 0;
    if (!options.unixPath.empty()) {
        auto& local = reinterpret_cast<sockaddr_un&>(storage);
        if (options.unixPath.size() >= sizeof local.sun_path)
            return -1;
        local.sun_family = AF_UNIX;
        std::memcpy(local.sun_path, options.unixPath.c_str(), options.unixPath.size() + 1);
        size = sizeof local;
    } else if (auto& v4 = reinterpret_cast<sockaddr_in&>(storage);
               inet_pton(AF_INET, options.host.c_str(), &v4.sin_addr) == 1) {
        v4.sin_family = AF_INET;
        v4.sin_port = htons(options.port);
        size = sizeof v4;
    } else if (auto& v6 = reinterpret_cast<sockaddr_in6&>(storage);
               inet_pton(AF_INET6, options.host.c_str(), &v6.sin6_addr) == 1) {
        v6.sin6_family = AF_INET6;
        v6.sin6_port = htons(options.port);
        size = sizeof v6;
    } else {
        return -1;
    }
    const int descriptor = ::socket(storage.ss_family, SOCK_STREAM | SOCK_NONBLOCK | SOCK_CLOEXEC, 0);
    if (descriptor < 0)
        return -1;
    if (options.receiveBufferBytes > 0) // before connecting, because it decides the window that is offered
        setOption(descriptor, SOL_SOCKET, SO_RCVBUF, options.receiveBufferBytes);
    if (storage.ss_family != AF_UNIX)
        setOption(descriptor, IPPROTO_TCP, TCP_NODELAY, 1);
    if (::connect(descriptor, reinterpret_cast<const sockaddr*>(&storage), size) != 0 && errno != EINPROGRESS) {
        ::close(descriptor);
        return -1;
    }
    return descriptor;
}

} // namespace

std::shared_ptr<WsClient> WsClient::connect(Loop& loop, const ClientOptions& options,
                                            std::shared_ptr<ClientHandler> handler)
{
    const int descriptor = beginConnecting(options);
    std::shared_ptr<WsClient> client(new WsClient(loop, options, std::move(handler), descriptor));
    loop.keep(client);
    client->m_watched = EPOLLOUT;
    if (descriptor < 0 || !loop.poller().add(descriptor, *client, EPOLLOUT))
        client->end(CloseCode::none, "cannot connect");
    return client;
}

WsClient::WsClient(Loop& loop, const ClientOptions& options, std::shared_ptr<ClientHandler> handler, int descriptor)
    : m_loop(loop), m_handler(std::move(handler)), m_tls(options.tls),
      m_stream(descriptor, descriptor < 0 ? nullptr : options.tls.get(), Stream::Side::client,
               options.hostName.empty() ? options.host : options.hostName),
      m_reader(wire::MessageReader::From::server, options.maxMessageBytes), m_rules(options.rules)
{
    RAND_bytes(reinterpret_cast<unsigned char*>(&m_maskSeed), sizeof m_maskSeed);
    m_request = upgradeRequest(m_rules, options.hostName.empty() ? options.host : options.hostName, m_key) +
                options.extraHeaders + "\r\n";
}

WsClient::~WsClient()
{
    if (m_phase != Phase::closed && m_stream.descriptor() >= 0)
        m_loop.poller().remove(m_stream.descriptor(), *this);
}

void WsClient::sendFrame(Opcode opcode, std::string_view payload)
{
    if (m_phase != Phase::open)
        return;
    // A linear congruential step (Knuth's constants): masks must differ, they need not be secret towards this server.
    m_maskSeed = m_maskSeed * 1664525U + 1013904223U;
    wire::MaskKey key;
    std::memcpy(key.data(), &m_maskSeed, key.size());
    wire::appendMaskedFrame(m_unsent, opcode, payload, key);
    flush();
}

void WsClient::sendRaw(std::string_view bytes)
{
    m_unsent.append(bytes);
    flush();
}

void WsClient::close(CloseCode code, std::string_view reason)
{
    sendFrame(Opcode::close, wire::closePayload(code, reason));
}

void WsClient::drop()
{
    end(CloseCode::none, "dropped");
}

void WsClient::pauseReading()
{
    m_paused = true;
    watch();
}

void WsClient::resumeReading()
{
    m_paused = false;
    watch();
    if (m_stream.hasBuffered())
        m_loop.post([weak = weak_from_this()] {
            if (const auto self = weak.lock(); self && self->m_phase != Phase::closed && !self->m_paused)
                self->readReady();
        });
}

void WsClient::watch()
{
    if (m_phase == Phase::closed)
        return;
    const std::uint32_t events = (m_paused ? 0U : EPOLLIN) | (m_blocked ? EPOLLOUT : 0U);
    if (events != m_watched)
        m_loop.poller().change(m_stream.descriptor(), *this, m_watched = events);
}

void WsClient::onReady(std::uint32_t events)
{
    if (m_phase == Phase::connecting) {
        connected();
        return;
    }
    if (m_phase == Phase::tls) {
        doTls();
        return;
    }
    if ((events & EPOLLOUT) != 0) {
        m_blocked = false;
        flush();
    }
    if (m_phase == Phase::closed)
        return;
    if ((events & (EPOLLIN | EPOLLHUP | EPOLLERR)) != 0 && (!m_paused || (events & EPOLLIN) == 0))
        readReady();
}

void WsClient::connected()
{
    int error = 0;
    socklen_t size = sizeof error;
    ::getsockopt(m_stream.descriptor(), SOL_SOCKET, SO_ERROR, &error, &size);
    if (error != 0) {
        end(CloseCode::none, std::strerror(error));
        return;
    }
    m_phase = m_tls ? Phase::tls : Phase::head;
    if (m_tls) {
        doTls();
    } else {
        m_unsent = std::exchange(m_request, {});
        flush();
    }
}

void WsClient::doTls()
{
    switch (m_stream.handshake()) {
    case IoState::done:
        m_phase = Phase::head;
        m_blocked = false;
        m_unsent = std::exchange(m_request, {});
        flush();
        return;
    case IoState::wantRead:
        m_blocked = false;
        watch();
        return;
    case IoState::wantWrite:
        m_blocked = true;
        watch();
        return;
    default:
        end(CloseCode::none, "TLS failed, or the key is not the one expected");
    }
}

void WsClient::readReady()
{
    do {
        auto buffer = m_loop.readBuffer();
        if (m_readLimit > 0)
            buffer = buffer.first(std::min(buffer.size(), m_readLimit));
        const auto result = m_stream.read(buffer);
        if (result.state == IoState::wantRead || result.state == IoState::wantWrite)
            return;
        if (result.state != IoState::done) {
            end(CloseCode::none, "the line ended");
            return;
        }
        take(buffer.first(result.bytes));
        if (m_phase != Phase::closed && m_stream.pendingWrite() > 0)
            flush();
    } while (m_stream.isTls() && m_phase != Phase::closed && !m_paused);
}

void WsClient::take(std::span<char> bytes)
{
    if (m_phase == Phase::open) {
        takeMessages(bytes);
        return;
    }
    constexpr std::string_view kEnd = "\r\n\r\n";
    const auto before = m_head.size();
    m_head.append(bytes.data(), bytes.size());
    const auto found = m_head.find(kEnd);
    if (found == std::string::npos) {
        if (m_head.size() > kMaxHead)
            end(CloseCode::none, "the answer is too large");
        return;
    }
    const auto headSize = found + kEnd.size();
    if (auto wrong = checkUpgradeAnswer(std::string_view(m_head).substr(0, headSize), m_rules, m_key)) {
        end(CloseCode::none, std::move(*wrong));
        return;
    }
    m_head = {};
    m_key = {};
    m_phase = Phase::open;
    m_handler->onOpen(*this);
    takeMessages(bytes.subspan(headSize - before));
}

void WsClient::takeMessages(std::span<char> bytes)
{
    while (!bytes.empty() && m_phase == Phase::open) {
        const auto event = m_reader.next(bytes);
        switch (event.kind) {
        case Kind::needMore:
            return;
        case Kind::text:
            m_handler->onText(*this, event.payload);
            break;
        case Kind::binary:
            m_handler->onBinary(*this,
                                {reinterpret_cast<const std::uint8_t*>(event.payload.data()), event.payload.size()});
            break;
        case Kind::ping:
            sendFrame(Opcode::pong, event.payload);
            break;
        case Kind::pong:
            break;
        case Kind::close: {
            const std::string reason(event.payload);
            sendFrame(Opcode::close, wire::closePayload(event.code, {}));
            end(event.code, reason);
            return;
        }
        case Kind::violation:
            sendFrame(Opcode::close, wire::closePayload(event.code, event.wrong));
            end(CloseCode::none, event.wrong);
            return;
        }
    }
}

void WsClient::flush()
{
    if (m_blocked || m_phase == Phase::closed || m_phase == Phase::connecting || m_phase == Phase::tls)
        return;
    std::size_t written = 0;
    while (written < m_unsent.size()) {
        const auto result = m_stream.write(std::string_view(m_unsent).substr(written));
        if (result.state == IoState::wantWrite) {
            m_blocked = true;
            break;
        }
        if (result.state == IoState::wantRead)
            break;
        if (result.state != IoState::done) {
            // What the server said before it went is still to be read; reading finds the end.
            written = m_unsent.size();
            break;
        }
        written += result.bytes;
    }
    m_unsent.erase(0, written);
    if (m_unsent.empty() && m_unsent.capacity() > 256)
        m_unsent = {};
    watch();
}

void WsClient::onLoopEnds()
{
    if (std::exchange(m_phase, Phase::closed) != Phase::closed)
        m_loop.poller().remove(m_stream.descriptor(), *this);
    m_handler.reset();
}

void WsClient::end(CloseCode code, std::string reason)
{
    if (m_phase == Phase::closed)
        return;
    m_phase = Phase::closed;
    if (m_stream.descriptor() >= 0) {
        m_loop.poller().remove(m_stream.descriptor(), *this);
        m_stream = Stream();
    }
    m_loop.post([self = shared_from_this(), code, reason = std::move(reason)] {
        std::exchange(self->m_handler, nullptr)->onClosed(*self, code, reason);
    });
    m_loop.bury(*this);
}

} // namespace vh::net
