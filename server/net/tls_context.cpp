#include "server/net/tls_context.h"

#include <algorithm>
#include <openssl/bio.h>
#include <openssl/crypto.h>
#include <openssl/err.h>
#include <openssl/evp.h>
#include <openssl/pem.h>
#include <openssl/rand.h>
#include <openssl/sha.h>
#include <openssl/ssl.h>
#include <openssl/x509v3.h>

namespace vh::net
{

namespace
{

template <auto free>
struct Freed {
    template <class T>
    void operator()(T* pointer) const
    {
        free(pointer);
    }
};
using BioPtr = std::unique_ptr<BIO, Freed<BIO_free_all>>;
using KeyPtr = std::unique_ptr<EVP_PKEY, Freed<EVP_PKEY_free>>;
using CertificatePtr = std::unique_ptr<X509, Freed<X509_free>>;
using ExtensionPtr = std::unique_ptr<X509_EXTENSION, Freed<X509_EXTENSION_free>>;

std::string lastError()
{
    char text[256] = "";
    ERR_error_string_n(ERR_peek_last_error(), text, sizeof text);
    ERR_clear_error();
    return text;
}

BioPtr readerOf(const std::string& text)
{
    return BioPtr(BIO_new_mem_buf(text.data(), static_cast<int>(text.size())));
}

std::string contentOf(BIO* bio)
{
    char* data = nullptr;
    const auto size = BIO_get_mem_data(bio, &data);
    return {data, static_cast<std::size_t>(size)};
}

std::optional<KeyPin> pinOf(const X509* certificate)
{
    unsigned char* der = nullptr;
    const int size = i2d_X509_PUBKEY(X509_get_X509_PUBKEY(certificate), &der);
    if (size <= 0)
        return std::nullopt;
    KeyPin pin{};
    SHA256(der, static_cast<std::size_t>(size), pin.data());
    OPENSSL_free(der);
    return pin;
}

bool addExtension(X509* certificate, int kind, const std::string& value)
{
    X509V3_CTX context;
    X509V3_set_ctx_nodb(&context);
    X509V3_set_ctx(&context, certificate, certificate, nullptr, nullptr, 0);
    const ExtensionPtr extension(X509V3_EXT_conf_nid(nullptr, &context, kind, value.c_str()));
    return extension && X509_add_ext(certificate, extension.get(), -1) == 1;
}

bool isAddress(const std::string& name)
{
    auto* bytes = a2i_IPADDRESS(name.c_str());
    ASN1_OCTET_STRING_free(bytes);
    return bytes != nullptr;
}

bool isName(const std::string& name)
{
    const auto fits = [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '.' || c == '-' ||
               c == '*';
    };
    return !name.empty() && name.size() <= 253 && std::all_of(name.begin(), name.end(), fits);
}

/// The verify callback of a client with a pin: the key decides, nothing else.
int verifyPin(X509_STORE_CTX* store, void* expected)
{
    const auto* certificate = X509_STORE_CTX_get0_cert(store);
    const auto pin = certificate ? pinOf(certificate) : std::nullopt;
    const bool same = pin && CRYPTO_memcmp(pin->data(), static_cast<KeyPin*>(expected)->data(), pin->size()) == 0;
    X509_STORE_CTX_set_error(store, same ? X509_V_OK : X509_V_ERR_CERT_UNTRUSTED);
    return same ? 1 : 0;
}

SSL_CTX* newContext(const SSL_METHOD* method)
{
    auto* context = SSL_CTX_new(method);
    if (!context)
        return nullptr;
    SSL_CTX_set_min_proto_version(context, TLS1_2_VERSION);
    SSL_CTX_set_options(context, SSL_OP_NO_RENEGOTIATION | SSL_OP_NO_COMPRESSION);
    SSL_CTX_set_mode(context,
                     SSL_MODE_RELEASE_BUFFERS | SSL_MODE_ENABLE_PARTIAL_WRITE | SSL_MODE_ACCEPT_MOVING_WRITE_BUFFER);
    SSL_CTX_set_session_cache_mode(context, SSL_SESS_CACHE_OFF);
    return context;
}

} // namespace

void TlsContext::Free::operator()(ssl_ctx_st* context) const
{
    SSL_CTX_free(context);
}

Result<CertificatePem> makeSelfSigned(const std::vector<std::string>& names)
{
    std::string alternatives;
    for (const auto& name : names) {
        if (!isName(name) && !isAddress(name))
            return fail("bad-name", "“" + name + "” is neither a host name nor an address");
        alternatives += (alternatives.empty() ? "" : ",") + std::string(isAddress(name) ? "IP:" : "DNS:") + name;
    }
    if (names.empty())
        return fail("bad-name", "A certificate needs at least one name");

    const KeyPtr key(EVP_EC_gen("P-256"));
    const CertificatePtr certificate(X509_new());
    std::uint64_t serial = 0;
    if (!key || !certificate || RAND_bytes(reinterpret_cast<unsigned char*>(&serial), sizeof serial) != 1)
        return fail("tls", lastError());
    constexpr long kDay = 24L * 60 * 60;
    X509_set_version(certificate.get(), X509_VERSION_3);
    ASN1_INTEGER_set_uint64(X509_get_serialNumber(certificate.get()), serial >> 1);
    X509_gmtime_adj(X509_getm_notBefore(certificate.get()), -kDay);
    X509_gmtime_adj(X509_getm_notAfter(certificate.get()), 3650 * kDay);
    auto* subject = X509_get_subject_name(certificate.get());
    const bool made =
        X509_NAME_add_entry_by_txt(subject, "CN", MBSTRING_UTF8,
                                   reinterpret_cast<const unsigned char*>("Voicehall relay"), -1, -1, 0) == 1 &&
        X509_set_issuer_name(certificate.get(), subject) == 1 && X509_set_pubkey(certificate.get(), key.get()) == 1 &&
        addExtension(certificate.get(), NID_basic_constraints, "critical,CA:FALSE") &&
        addExtension(certificate.get(), NID_ext_key_usage, "serverAuth") &&
        addExtension(certificate.get(), NID_subject_alt_name, alternatives) &&
        X509_sign(certificate.get(), key.get(), EVP_sha256()) > 0;
    const BioPtr chainOut(BIO_new(BIO_s_mem()));
    const BioPtr keyOut(BIO_new(BIO_s_mem()));
    if (!made || PEM_write_bio_X509(chainOut.get(), certificate.get()) != 1 ||
        PEM_write_bio_PKCS8PrivateKey(keyOut.get(), key.get(), nullptr, nullptr, 0, nullptr, nullptr) != 1)
        return fail("tls", lastError());
    return CertificatePem{contentOf(chainOut.get()), contentOf(keyOut.get())};
}

Result<std::shared_ptr<const TlsContext>> TlsContext::server(const CertificatePem& pem)
{
    const std::shared_ptr<TlsContext> context(new TlsContext(newContext(TLS_server_method())));
    auto* handle = context->handle();
    if (!handle)
        return fail("tls", lastError());
    const auto chain = readerOf(pem.chain);
    const CertificatePtr certificate(PEM_read_bio_X509(chain.get(), nullptr, nullptr, nullptr));
    if (!certificate)
        return fail("bad-certificate", "The certificate is not readable PEM: " + lastError());
    const auto keyText = readerOf(pem.key);
    // No passphrase is ever asked for: an encrypted key is an error, not a prompt on the terminal.
    const auto noPassphrase = [](char*, int, int, void*) { return -1; };
    const KeyPtr key(PEM_read_bio_PrivateKey(keyText.get(), nullptr, noPassphrase, nullptr));
    if (!key)
        return fail("bad-key", "The private key is not readable, unencrypted PEM: " + lastError());
    if (SSL_CTX_use_certificate(handle, certificate.get()) != 1)
        return fail("bad-certificate", "The certificate cannot be used: " + lastError());
    while (auto* further = PEM_read_bio_X509(chain.get(), nullptr, nullptr, nullptr))
        SSL_CTX_add0_chain_cert(handle, further);
    ERR_clear_error();
    if (SSL_CTX_use_PrivateKey(handle, key.get()) != 1 || SSL_CTX_check_private_key(handle) != 1)
        return fail("bad-key", "The private key does not belong to the certificate: " + lastError());
    SSL_CTX_set_num_tickets(handle, 1);
    context->m_pin = pinOf(certificate.get());
    return context;
}

Result<std::shared_ptr<const TlsContext>> TlsContext::client(std::optional<KeyPin> pin)
{
    const std::shared_ptr<TlsContext> context(new TlsContext(newContext(TLS_client_method())));
    auto* handle = context->handle();
    if (!handle)
        return fail("tls", lastError());
    SSL_CTX_set_verify(handle, SSL_VERIFY_PEER, nullptr);
    context->m_pin = pin;
    if (pin)
        SSL_CTX_set_cert_verify_callback(handle, verifyPin, &*context->m_pin);
    else if (SSL_CTX_set_default_verify_paths(handle) != 1)
        return fail("tls", "The system's certificates cannot be read: " + lastError());
    return context;
}

std::optional<KeyPin> peerPin(const ssl_st* ssl)
{
    const auto* certificate = ssl ? SSL_get0_peer_certificate(ssl) : nullptr;
    return certificate ? pinOf(certificate) : std::nullopt;
}

} // namespace vh::net
