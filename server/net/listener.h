#pragma once
// Accepts on a TCP address and port or on a Unix socket, plain or with TLS, on one Loop; connections stay there until
// somebody moves them. Limits: how many at once, how long a handshake may take. Out of descriptors: accepting rests
// for 100 ms instead of spinning. Thread: the loop's, or before it runs. Destroying it ends no connection.
#include "server/net/connection.h"
#include "server/net/forwarded.h"

namespace vh::net
{

struct ListenAddress {
    std::string host = "127.0.0.1"; ///< a numeric address
    std::uint16_t port = 0;         ///< 0: any free one
    std::string unixPath;           ///< not empty: this instead; the file is replaced and removed at the end
};

struct ListenerOptions {
    ListenAddress address;
    UpgradeRules rules;
    ConnectionLimits limits;
    std::shared_ptr<const TlsContext> tls; ///< null: plain
    TrustedProxies proxies;
    std::size_t maxConnections = 10'000;
    /// Called when the upgrade has been accepted, on the loop's thread.
    std::function<std::shared_ptr<ConnectionHandler>(Connection&)> makeHandler;
};

class Listener final : public PollTarget
{
public:
    static Result<std::unique_ptr<Listener>> open(Loop& loop, ListenerOptions options);
    ~Listener() override;

    [[nodiscard]] std::uint16_t port() const { return m_port; } ///< the actual one; 0 on a Unix socket
    void onReady(std::uint32_t events) override;

private:
    Listener(Loop& loop, ListenerOptions options, int descriptor);
    void rest();

    Loop& m_loop;
    int m_descriptor;
    std::uint16_t m_port = 0;
    std::string m_unixPath;
    std::size_t m_maxConnections;
    std::shared_ptr<ConnectionSetup> m_setup;
    Loop::Timer m_resting;
};

} // namespace vh::net
