#pragma once
// A non-blocking socket, with or without TLS on it. Owns the descriptor and the SSL. Never waits, never throws. With
// TLS a write that could not finish must be repeated with the same bytes before anything else is written: that is what
// pendingWrite() is for. Thread: one at a time.
#include "server/net/tls_context.h"

#include <cstddef>
#include <span>
#include <string_view>

namespace vh::net
{

enum class IoState : std::uint8_t {
    done,      ///< something was moved, or the handshake is finished
    wantRead,  ///< again when readable
    wantWrite, ///< again when writable
    ended,     ///< the peer finished in order
    failed     ///< reset, or TLS went wrong
};

struct IoResult {
    IoState state = IoState::failed;
    std::size_t bytes = 0;
};

class Stream
{
public:
    enum class Side { server, client };

    Stream() = default;
    /// `tls` null: plain. `hostName` (clients): for SNI and, without a pin, for checking the certificate.
    Stream(int descriptor, const TlsContext* tls, Side side, const std::string& hostName = {});
    Stream(Stream&& other) noexcept;
    Stream& operator=(Stream&& other) noexcept;
    ~Stream();

    [[nodiscard]] int descriptor() const { return m_descriptor; }
    [[nodiscard]] bool isTls() const { return m_ssl != nullptr; }

    IoState handshake();
    IoResult read(std::span<char> into);
    /// Plain: one send. TLS: at most one record.
    IoResult write(std::string_view bytes);
    /// Bytes at the front of the last write that a TLS record under way already covers.
    [[nodiscard]] std::size_t pendingWrite() const { return m_pendingWrite; }
    /// Decrypted bytes wait inside; epoll would not report them.
    [[nodiscard]] bool hasBuffered() const;
    /// Tells the peer that nothing more comes; reading goes on.
    void finishWriting();
    [[nodiscard]] const ssl_st* ssl() const { return m_ssl; }

private:
    IoState stateOf(int result) const;

    int m_descriptor = -1;
    ssl_st* m_ssl = nullptr;
    std::size_t m_pendingWrite = 0;
};

} // namespace vh::net
