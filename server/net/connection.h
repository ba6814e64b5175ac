#pragma once
// One accepted connection, from the first byte to the last: TLS, the HTTP upgrade, then WebSocket. A plain object in a
// Poller; no buffer of its own beyond an unfinished frame. Everything here is called on its loop's thread. Nothing here
// calls the handler from inside a call the handler made: closing is reported by a posted function.
// Limits: ConnectionLimits. Failure: the connection closes with a named reason and hurts nobody else.
#include "server/net/forwarded.h"
#include "server/net/hall_log.h"
#include "server/net/outgoing.h"
#include "server/net/upgrade.h"

#include <atomic>

namespace vh::net
{

class Connection;

class ConnectionHandler
{
public:
    ConnectionHandler() = default;
    ConnectionHandler(const ConnectionHandler&) = delete;
    ConnectionHandler& operator=(const ConnectionHandler&) = delete;
    virtual ~ConnectionHandler() = default;
    virtual void onOpen(Connection&) {}
    /// Well-formed UTF-8. The view ends with the call.
    virtual void onText(Connection&, std::string_view) {}
    virtual void onBinary(Connection&, std::span<const std::uint8_t>) {}
    /// Once, after onOpen; the connection can no longer send. Its log has been detached.
    virtual void onClosed(Connection&, CloseReason) {}
    /// The cursor jumped and there is room again: send the state if lasting frames are among what was missed.
    virtual void onSkipped(Connection&, Skipped) {}
};

struct ConnectionLimits {
    std::size_t headBytes = 8 * 1024;
    std::size_t firstMessageBytes = 4 * 1024; ///< until the handler sets another limit
    OutgoingLimits outgoing;
    std::chrono::milliseconds handshake{10'000};
    std::chrono::milliseconds pingAfter{20'000};
    std::chrono::milliseconds silentAfter{50'000};
    std::chrono::milliseconds closing{2'000};
    int notSentLowWater = 4096; ///< bytes: TCP_NOTSENT_LOWAT
    int sendBufferBytes = 0;    ///< SO_SNDBUF; 0: the kernel's own
};

/// What the listener gives to every connection it accepts; outlives them.
struct ConnectionSetup {
    ConnectionLimits limits;
    UpgradeRules rules;
    TrustedProxies proxies;
    std::shared_ptr<const TlsContext> tls; ///< null: plain
    std::function<std::shared_ptr<ConnectionHandler>(Connection&)> makeHandler;
    std::atomic<std::size_t> alive{0};
};

class Connection final : public PollTarget, public std::enable_shared_from_this<Connection>
{
public:
    Connection(Loop& loop, int descriptor, std::string peerAddress, std::shared_ptr<ConnectionSetup> setup);
    ~Connection() override;

    /// A private frame, after position `after` of the log it follows (log.end() at the time: in order with it; 0: at
    /// once). Closes with too-slow when the limit is passed. Frames keep the order in which they were sent.
    void send(FrameBytes frame, LogPosition after = 0, Weight weight = Weight::ordinary);
    void sendText(std::string_view json, LogPosition after = 0, Weight weight = Weight::ordinary);
    void sendBinary(std::string_view payload, LogPosition after = 0, Weight weight = Weight::ordinary);
    /// Droppable and private (a roster): what still waits in the slot is replaced, the drop is counted.
    void sendNewest(std::uint8_t slot, FrameBytes frame);
    void close(wire::CloseCode code, std::string_view reason, CloseReason why = CloseReason::byUs);

    enum class From { end, begin };
    /// Follows `log` (of the same loop) from now on; leaves the one it followed.
    void attach(HallLog& log, From from = From::end);
    void detach();
    [[nodiscard]] HallLog* log() const { return m_log; }

    void setMaxMessageBytes(std::size_t bytes) { m_reader.setMaxMessageBytes(bytes); }
    void setHandler(std::shared_ptr<ConnectionHandler> handler);
    [[nodiscard]] const std::shared_ptr<ConnectionHandler>& handler() const { return m_handler; }
    /// To be called from its handler or a posted function, not attached to a log. After it, nothing may be called on
    /// the connection until `arrived` runs on the other loop; bytes that came meanwhile are read there.
    void moveTo(Loop& loop, std::function<void(Connection&)> arrived);

    [[nodiscard]] Loop& loop() const { return *m_loop; }
    [[nodiscard]] std::uint64_t id() const { return m_id; } ///< unique in this process
    /// The peer's address, or the one a configured proxy vouches for. "local" on a Unix socket.
    [[nodiscard]] const std::string& address() const { return m_address; }
    [[nodiscard]] bool isOpen() const { return m_phase == Phase::open; }
    [[nodiscard]] const Outgoing& outgoing() const { return m_out; }

    void onReady(std::uint32_t events) override;
    void onSweep(SteadyTime now) override;
    void onStopping() override;
    void onLoopEnds() override; ///< closes without a word to anybody; a clean stop closes everybody first

private:
    friend class HallLog;
    friend class Listener;
    enum class Phase : std::uint8_t { tls, head, open, closing, closed };

    void start();
    void flush();
    void postFlush();
    void wantWritable(bool wanted);
    void doTls();
    void readReady();
    void readHead(std::span<char> bytes);
    void readMessages(std::span<char> bytes);
    bool handle(const wire::MessageReader::Event& event);
    void refuse(std::string answer);
    void beginClosing(FrameBytes last, CloseReason why);
    void end(CloseReason why);
    void tellClosed(CloseReason why);
    void arrive(Loop& loop, const std::function<void(Connection&)>& arrived);

    Loop* m_loop;
    std::shared_ptr<ConnectionSetup> m_setup;
    std::shared_ptr<ConnectionHandler> m_handler;
    Stream m_stream;
    Outgoing m_out;
    wire::MessageReader m_reader;
    HallLog* m_log = nullptr;
    std::size_t m_memberAt = 0; ///< place in the log's list
    std::string m_head;         ///< of the HTTP request; then bytes to be read after a move
    std::string m_address;
    SteadyTime m_lastByte;
    SteadyTime m_deadline; ///< of the handshake or of closing
    std::uint64_t m_id;
    Phase m_phase;
    bool m_blocked = false; ///< waits for EPOLLOUT
    bool m_flushPosted = false;
    bool m_pinged = false;
    bool m_moving = false;
    bool m_registered = false;
};

} // namespace vh::net
