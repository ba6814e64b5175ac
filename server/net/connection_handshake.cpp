// The way of a connection until it is open: TLS, then the HTTP request that asks for a WebSocket.
#include "server/net/connection.h"

#include <utility>

namespace vh::net
{

void Connection::doTls()
{
    switch (m_stream.handshake()) {
    case IoState::done:
        m_phase = Phase::head;
        wantWritable(false);
        readReady();
        return;
    case IoState::wantRead:
        wantWritable(false);
        return;
    case IoState::wantWrite:
        wantWritable(true);
        return;
    default:
        end(CloseReason::tlsFailed);
    }
}

void Connection::readHead(std::span<char> bytes)
{
    constexpr std::string_view kEnd = "\r\n\r\n";
    const auto searchFrom = m_head.size() < kEnd.size() ? 0 : m_head.size() - kEnd.size();
    const auto before = m_head.size();
    m_head.append(bytes.data(), bytes.size());
    const auto found = m_head.find(kEnd, searchFrom);
    const auto headSize = found == std::string::npos ? m_head.size() : found + kEnd.size();
    if (headSize > m_setup->limits.headBytes) {
        refuse(tooLargeAnswer());
        return;
    }
    if (found == std::string::npos)
        return;
    auto answer = answerUpgrade(std::string_view(m_head).substr(0, headSize), m_setup->rules);
    if (!answer.accepted) {
        refuse(std::move(answer.response));
        return;
    }
    m_address = clientAddress(m_address, answer.forwardedFor, m_setup->proxies);
    m_head = {};
    m_phase = Phase::open;
    m_out.pushRaw(std::make_shared<const std::string>(std::move(answer.response)));
    ++m_loop->counters().open;
    m_handler = m_setup->makeHandler(*this);
    m_handler->onOpen(*this);
    flush();
    const auto rest = bytes.subspan(headSize - before);
    if (!rest.empty() && m_phase == Phase::open)
        readMessages(rest);
}

void Connection::refuse(std::string answer)
{
    m_out.pushRaw(std::make_shared<const std::string>(std::move(answer)));
    beginClosing(nullptr, CloseReason::badRequest);
}

} // namespace vh::net
