#pragma once
// A lean WebSocket client over the same Poller: for chorus, benches and tests, by the thousand. Plain or TLS, with an
// optional pin. Never waits. Thread: its loop's. The loop owns it from connect() to onClosed.
// Failure before onOpen: onClosed with what went wrong in words.
#include "common/wire/ws_frame.h"
#include "server/net/loop.h"
#include "server/net/stream.h"
#include "server/net/upgrade.h"

namespace vh::net
{

class WsClient;

class ClientHandler
{
public:
    ClientHandler() = default;
    ClientHandler(const ClientHandler&) = delete;
    ClientHandler& operator=(const ClientHandler&) = delete;
    virtual ~ClientHandler() = default;
    virtual void onOpen(WsClient&) {}
    virtual void onText(WsClient&, std::string_view) {}
    virtual void onBinary(WsClient&, std::span<const std::uint8_t>) {}
    /// Once. `code` none: the line ended without a close frame.
    virtual void onClosed(WsClient&, wire::CloseCode /*code*/, std::string_view /*reason*/) {}
};

struct ClientOptions {
    std::string host = "127.0.0.1"; ///< numeric; a name is the caller's to resolve
    std::uint16_t port = 0;
    std::string unixPath; ///< not empty: this instead
    std::string hostName; ///< for Host, SNI and the certificate; empty: `host`
    UpgradeRules rules;
    std::shared_ptr<const TlsContext> tls; ///< null: plain
    std::string extraHeaders;              ///< whole lines, each ending in CRLF
    std::size_t maxMessageBytes = 4 * 1024 * 1024;
    int receiveBufferBytes = 0; ///< SO_RCVBUF; 0: the kernel's own
};

class WsClient final : public PollTarget, public std::enable_shared_from_this<WsClient>
{
public:
    static std::shared_ptr<WsClient> connect(Loop& loop, const ClientOptions& options,
                                             std::shared_ptr<ClientHandler> handler);
    ~WsClient() override;

    void sendText(std::string_view text) { sendFrame(wire::Opcode::text, text); }
    void sendBinary(std::string_view payload) { sendFrame(wire::Opcode::binary, payload); }
    void sendFrame(wire::Opcode opcode, std::string_view payload);
    /// Bytes as they are: for tests of what a server must refuse.
    void sendRaw(std::string_view bytes);
    void close(wire::CloseCode code, std::string_view reason);
    /// Ends the line without a word, as a crash or a pulled plug would.
    void drop();
    void pauseReading();
    void resumeReading();
    /// Reads at most this many bytes at a time (tests stop and start at any byte); 0: as many as there are.
    void setReadLimit(std::size_t bytes) { m_readLimit = bytes; }

    [[nodiscard]] Loop& loop() const { return m_loop; }
    [[nodiscard]] bool isOpen() const { return m_phase == Phase::open; }
    [[nodiscard]] std::size_t waitingBytes() const { return m_unsent.size(); }
    [[nodiscard]] std::optional<KeyPin> serverPin() const { return peerPin(m_stream.ssl()); }

    void onReady(std::uint32_t events) override;
    void onLoopEnds() override;

private:
    enum class Phase : std::uint8_t { connecting, tls, head, open, closed };

    WsClient(Loop& loop, const ClientOptions& options, std::shared_ptr<ClientHandler> handler, int descriptor);
    void connected();
    void doTls();
    void readReady();
    void take(std::span<char> bytes);
    void takeMessages(std::span<char> bytes);
    void flush();
    void watch();
    void end(wire::CloseCode code, std::string reason);

    Loop& m_loop;
    std::shared_ptr<ClientHandler> m_handler;
    std::shared_ptr<const TlsContext> m_tls;
    Stream m_stream;
    wire::MessageReader m_reader;
    UpgradeRules m_rules;
    std::string m_key;
    std::string m_request;
    std::string m_head;
    std::string m_unsent;
    std::size_t m_readLimit = 0;
    std::uint32_t m_watched = 0;
    std::uint32_t m_maskSeed;
    Phase m_phase = Phase::connecting;
    bool m_paused = false;
    bool m_blocked = false;
};

} // namespace vh::net
