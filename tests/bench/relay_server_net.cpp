#include "common/base/text.h"
#include "server/net/listener.h"
#include "tests/bench/relay_servers.h"

#include <unistd.h>

namespace vh::bench
{

using namespace vh::net;

namespace
{

/// Homes follow the log; what the leader says goes into it: sound as droppable, text as lasting.
struct NetHandler final : ConnectionHandler {
    explicit NetHandler(HallLog& hallLog) : log(hallLog) {}
    ~NetHandler() override = default;
    void onOpen(Connection& connection) override { connection.attach(log); }
    void onText(Connection& connection, std::string_view text) override
    {
        if (text == "lead") {
            connection.detach();
            leader = &connection;
        } else if (&connection == leader) {
            log.append(wire::Opcode::text, text, FrameKind::lasting);
        }
    }
    void onBinary(Connection& connection, std::span<const std::uint8_t> payload) override
    {
        if (&connection == leader)
            log.append(wire::Opcode::binary, {reinterpret_cast<const char*>(payload.data()), payload.size()},
                       FrameKind::droppable);
        else
            ++readings;
    }
    void onClosed(Connection& connection, CloseReason) override
    {
        if (&connection == leader)
            leader = nullptr;
    }
    HallLog& log;
    Connection* leader = nullptr;
    std::uint64_t readings = 0;
};

struct Commands final : PollTarget {
    Commands(Loop& onLoop, NetHandler& netHandler) : loop(onLoop), handler(netHandler)
    {
        added = loop.poller().add(0, *this, EPOLLIN);
    }
    void onReady(std::uint32_t) override
    {
        char buffer[64];
        if (::read(0, buffer, sizeof buffer) <= 0) {
            loop.poller().remove(0, *this);
            loop.stop();
            return;
        }
        const auto& counters = loop.counters();
        std::printf(
            "stat frames=%llu sends=%llu readings=%llu skipped=%llu open=%llu\n",
            static_cast<unsigned long long>(counters.framesOut), static_cast<unsigned long long>(counters.logSends),
            static_cast<unsigned long long>(handler.readings),
            static_cast<unsigned long long>(counters.skippedDroppable), static_cast<unsigned long long>(counters.open));
        std::fflush(stdout);
    }
    Loop& loop;
    NetHandler& handler;
    bool added = false;
};

} // namespace

int runNetServer(Transport transport)
{
    Loop loop;
    HallLog log(loop);
    const auto handler = std::make_shared<NetHandler>(log);
    ListenerOptions options;
    options.makeHandler = [&](Connection&) { return handler; };
    if (transport == Transport::tls) {
        options.tls = TlsContext::server(makeSelfSigned({"localhost"}).value()).value();
        std::printf("pin %s\n", hexOf(*options.tls->pin()).c_str());
    }
    const auto listener = Listener::open(loop, std::move(options)).value();
    const Commands commands(loop, *handler);
    std::printf("port port=%u\n", listener->port());
    std::fflush(stdout);
    loop.run();
    return 0;
}

} // namespace vh::bench
