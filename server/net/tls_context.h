#pragma once
// TLS for a listener or a client: certificates, keys and the pin. The pin is SHA-256 of the certificate's
// SubjectPublicKeyInfo (DER), so it outlives a renewed certificate over the same key (RFC 7469 section 2.4 pins the
// same bytes). TLS 1.2 and up, no renegotiation, no compression. Immutable once made: any thread.
#include "common/base/result.h"

#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

struct ssl_ctx_st;
struct ssl_st;

namespace vh::net
{

using KeyPin = std::array<std::uint8_t, 32>;

struct CertificatePem {
    std::string chain; ///< the server's certificate first
    std::string key;   ///< unencrypted
};

/// A fresh P-256 key and a certificate for it, valid from yesterday for ten years, with `names` (DNS names or
/// addresses) as subjectAltName. For demo and local network.
Result<CertificatePem> makeSelfSigned(const std::vector<std::string>& names);

class TlsContext
{
public:
    /// A server's. Fails when the PEM does not parse or the key does not belong to the certificate.
    static Result<std::shared_ptr<const TlsContext>> server(const CertificatePem& pem);
    /// A client's. With a pin the key is compared with it and nothing else is asked; without, the system's
    /// certificates and the host's name decide.
    static Result<std::shared_ptr<const TlsContext>> client(std::optional<KeyPin> pin);

    /// The server's own pin; for a client the one it expects, or none.
    [[nodiscard]] const std::optional<KeyPin>& pin() const { return m_pin; }
    [[nodiscard]] ssl_ctx_st* handle() const { return m_context.get(); }

private:
    struct Free {
        void operator()(ssl_ctx_st* context) const;
    };
    explicit TlsContext(ssl_ctx_st* context) : m_context(context) {}

    std::unique_ptr<ssl_ctx_st, Free> m_context;
    std::optional<KeyPin> m_pin;
};

/// The pin of the certificate the peer showed, if it showed one.
std::optional<KeyPin> peerPin(const ssl_st* ssl);

} // namespace vh::net
