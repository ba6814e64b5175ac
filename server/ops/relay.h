#pragma once
// One relay, put together: store, loops, halls, listener, operations port. start() returns once homes can come; stop()
// says goodbye to every line, lets the store write what was accepted, and returns. Thread: start and stop from one
// thread; the loops have their own.
#include "server/hall/halls.h"
#include "server/hall/picture_works.h"
#include "server/net/listener.h"
#include "server/ops/config.h"
#include "server/ops/ops_port.h"

namespace vh::ops
{

class Relay
{
public:
    /// Tests and the quick demo hand in their clock; it must outlive the relay.
    explicit Relay(Config config, const Clock* clock = nullptr);
    ~Relay();

    Result<void> start();
    void stop();

    [[nodiscard]] std::uint16_t port() const;    ///< the actual one
    [[nodiscard]] std::uint16_t opsPort() const; ///< likewise
    /// The pin of a key of the relay's own; nothing with a public certificate or without TLS.
    [[nodiscard]] std::optional<net::KeyPin> pin() const { return m_pin; }

private:
    Result<void> openStore();
    Result<void> openTls();
    void openPictures();

    Config m_config;
    SystemClock m_ownClock;
    const Clock& m_clock;
    std::unique_ptr<store::Store> m_store;
    std::vector<std::unique_ptr<net::LoopThread>> m_loops;
    std::shared_ptr<const net::TlsContext> m_tls;
    std::optional<net::KeyPin> m_pin;
    std::unique_ptr<hall::PictureWorks> m_pictures; ///< null: none are taken
    std::unique_ptr<hall::Halls> m_halls;
    std::unique_ptr<net::Listener> m_listener;
    std::unique_ptr<OpsPort> m_ops;
    net::Loop::Timer m_sweep;
};

/// What every command of the relay's own needs of its folder.
store::StoreOptions storeOptions(const Config& config, store::StoreOptions::Hold hold);
/// The relay's own certificate: made at first use, kept with mode 0600.
Result<net::CertificatePem> ownCertificate(const Config& config);
Result<net::CertificatePem> readCertificate(const Config& config);

} // namespace vh::ops
