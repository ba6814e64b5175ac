#include "server/net/stream.h"

#include <algorithm>
#include <cerrno>
#include <climits>
#include <openssl/err.h>
#include <openssl/ssl.h>
#include <openssl/x509v3.h>
#include <sys/socket.h>
#include <unistd.h>
#include <utility>

namespace vh::net
{

namespace
{
constexpr std::size_t kRecordBytes = 16 * 1024; // RFC 8446 section 5.1
}

Stream::Stream(int descriptor, const TlsContext* tls, Side side, const std::string& hostName) : m_descriptor(descriptor)
{
    if (!tls)
        return;
    m_ssl = SSL_new(tls->handle());
    if (!m_ssl || SSL_set_fd(m_ssl, descriptor) != 1)
        return; // the handshake fails
    if (side == Side::server) {
        SSL_set_accept_state(m_ssl);
        return;
    }
    SSL_set_connect_state(m_ssl);
    if (hostName.empty())
        return;
    auto* parameters = SSL_get0_param(m_ssl);
    if (X509_VERIFY_PARAM_set1_ip_asc(parameters, hostName.c_str()) != 1) {
        SSL_set_tlsext_host_name(m_ssl, hostName.c_str());
        X509_VERIFY_PARAM_set1_host(parameters, hostName.c_str(), hostName.size());
    }
}

Stream::Stream(Stream&& other) noexcept
    : m_descriptor(std::exchange(other.m_descriptor, -1)), m_ssl(std::exchange(other.m_ssl, nullptr)),
      m_pendingWrite(std::exchange(other.m_pendingWrite, 0))
{
}

Stream& Stream::operator=(Stream&& other) noexcept
{
    std::swap(m_descriptor, other.m_descriptor);
    std::swap(m_ssl, other.m_ssl);
    std::swap(m_pendingWrite, other.m_pendingWrite);
    return *this;
}

Stream::~Stream()
{
    SSL_free(m_ssl);
    if (m_descriptor >= 0)
        ::close(m_descriptor);
}

IoState Stream::stateOf(int result) const
{
    const int error = SSL_get_error(m_ssl, result);
    ERR_clear_error();
    switch (error) {
    case SSL_ERROR_NONE:
        return IoState::done;
    case SSL_ERROR_WANT_READ:
        return IoState::wantRead;
    case SSL_ERROR_WANT_WRITE:
        return IoState::wantWrite;
    case SSL_ERROR_ZERO_RETURN:
        return IoState::ended;
    default:
        return IoState::failed;
    }
}

IoState Stream::handshake()
{
    if (!m_ssl)
        return IoState::done;
    ERR_clear_error();
    return stateOf(SSL_do_handshake(m_ssl));
}

IoResult Stream::read(std::span<char> into)
{
    if (m_ssl) {
        std::size_t count = 0;
        ERR_clear_error();
        const int result = SSL_read_ex(m_ssl, into.data(), into.size(), &count);
        return {result == 1 ? IoState::done : stateOf(result), count};
    }
    const auto count = ::recv(m_descriptor, into.data(), into.size(), 0);
    if (count > 0)
        return {IoState::done, static_cast<std::size_t>(count)};
    if (count == 0)
        return {IoState::ended, 0};
    return {errno == EAGAIN || errno == EINTR ? IoState::wantRead : IoState::failed, 0};
}

IoResult Stream::write(std::string_view bytes)
{
    if (m_ssl) {
        std::size_t count = 0;
        const auto size = m_pendingWrite > 0 ? m_pendingWrite : std::min(bytes.size(), kRecordBytes);
        ERR_clear_error();
        const int result = SSL_write_ex(m_ssl, bytes.data(), size, &count);
        const auto state = result == 1 ? IoState::done : stateOf(result);
        m_pendingWrite = state == IoState::wantRead || state == IoState::wantWrite ? size : 0;
        return {state, count};
    }
    const auto count = ::send(m_descriptor, bytes.data(), bytes.size(), MSG_NOSIGNAL);
    if (count >= 0)
        return {IoState::done, static_cast<std::size_t>(count)};
    return {errno == EAGAIN || errno == EINTR || errno == ENOBUFS ? IoState::wantWrite : IoState::failed, 0};
}

bool Stream::hasBuffered() const
{
    return m_ssl && SSL_has_pending(m_ssl) == 1;
}

void Stream::finishWriting()
{
    if (m_ssl && SSL_is_init_finished(m_ssl)) {
        ERR_clear_error();
        SSL_shutdown(m_ssl);
        ERR_clear_error();
    }
    ::shutdown(m_descriptor, SHUT_WR);
}

} // namespace vh::net
