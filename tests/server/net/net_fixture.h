#pragma once
// What the transport's tests share: a loop that runs until something has come true, a handler and a client that write
// down what they saw, and a listener on a free port.
#include "server/net/listener.h"
#include "server/net/ws_client.h"

#include <functional>
#include <string>
#include <vector>

namespace vh::net::test
{

/// Runs the loop until `ready` holds; false when it never does. The wait is a limit, not a measure.
inline bool runUntil(Loop& loop, const std::function<bool()>& ready)
{
    const auto limit = std::chrono::steady_clock::now() + std::chrono::seconds(40);
    bool held = false;
    const auto check = loop.every(std::chrono::milliseconds(1), [&] {
        held = ready();
        if (held || std::chrono::steady_clock::now() > limit)
            loop.stop();
    });
    loop.run();
    return held;
}

struct ServerSaw final : ConnectionHandler {
    std::vector<std::shared_ptr<Connection>> opened;
    std::vector<std::string> texts;
    std::vector<std::string> binaries;
    std::vector<CloseReason> closed;
    Skipped skipped;
    std::function<void(Connection&)> whenOpen;
    std::function<void(Connection&, std::string_view)> whenText;
    std::function<void(Connection&, Skipped)> whenSkipped;

    ~ServerSaw() override = default;
    void onOpen(Connection& connection) override
    {
        opened.push_back(connection.shared_from_this());
        if (whenOpen)
            whenOpen(connection);
    }
    void onText(Connection& connection, std::string_view text) override
    {
        texts.emplace_back(text);
        if (whenText)
            whenText(connection, text);
    }
    void onBinary(Connection& /*connection*/, std::span<const std::uint8_t> payload) override
    {
        binaries.emplace_back(payload.begin(), payload.end());
    }
    void onClosed(Connection& /*connection*/, CloseReason reason) override { closed.push_back(reason); }
    void onSkipped(Connection& connection, Skipped missed) override
    {
        skipped.lasting += missed.lasting;
        skipped.droppable += missed.droppable;
        if (whenSkipped)
            whenSkipped(connection, missed);
    }
};

struct ClientSaw final : ClientHandler {
    bool open = false;
    bool ended = false;
    std::vector<std::string> texts;
    std::vector<std::string> binaries;
    wire::CloseCode code = wire::CloseCode::none;
    std::string reason;
    std::function<void(WsClient&)> whenOpen;

    ~ClientSaw() override = default;
    void onOpen(WsClient& client) override
    {
        open = true;
        if (whenOpen)
            whenOpen(client);
    }
    void onText(WsClient& /*client*/, std::string_view text) override { texts.emplace_back(text); }
    void onBinary(WsClient& /*client*/, std::span<const std::uint8_t> payload) override
    {
        binaries.emplace_back(payload.begin(), payload.end());
    }
    void onClosed(WsClient& /*client*/, wire::CloseCode closeCode, std::string_view closeReason) override
    {
        ended = true;
        code = closeCode;
        reason = closeReason;
    }
};

/// A listener with one handler for all, and clients to it.
struct Relay {
    Loop loop;
    std::shared_ptr<ServerSaw> saw = std::make_shared<ServerSaw>();
    std::unique_ptr<Listener> listener;
    ClientOptions clientOptions;

    explicit Relay(ListenerOptions options = {})
    {
        options.makeHandler = [this](Connection&) { return saw; };
        const bool secure = options.tls != nullptr;
        const auto pin = secure ? options.tls->pin() : std::nullopt;
        const auto path = options.address.unixPath;
        listener = Listener::open(loop, std::move(options)).value();
        clientOptions.port = listener->port();
        clientOptions.unixPath = path;
        if (secure)
            clientOptions.tls = TlsContext::client(pin).value();
    }

    ~Relay() { saw->opened.clear(); } // a connection holds its handler: let go of each other while the loop is there
    Relay(const Relay&) = delete;
    Relay& operator=(const Relay&) = delete;

    std::pair<std::shared_ptr<WsClient>, std::shared_ptr<ClientSaw>> connect()
    {
        auto seen = std::make_shared<ClientSaw>();
        auto client = WsClient::connect(loop, clientOptions, seen);
        return {std::move(client), std::move(seen)};
    }
    bool until(const std::function<bool()>& ready) { return runUntil(loop, ready); }
    [[nodiscard]] std::uint64_t closedBy(CloseReason reason)
    {
        return loop.counters().closed[static_cast<std::size_t>(reason)];
    }
};

inline std::shared_ptr<const TlsContext> selfSigned()
{
    static const auto context = TlsContext::server(makeSelfSigned({"localhost", "127.0.0.1"}).value()).value();
    return context;
}

} // namespace vh::net::test
