#include "net_fixture.h"

#include <QtTest>

using namespace vh;
using namespace vh::net;
using namespace vh::net::test;
using namespace std::chrono_literals;
using wire::CloseCode;
using wire::Opcode;

Q_DECLARE_METATYPE(vh::net::CloseReason)

namespace
{

constexpr wire::MaskKey kKey{1, 2, 3, 4};

std::string masked(Opcode opcode, std::string_view payload, bool fin = true)
{
    std::string out;
    wire::appendMaskedFrame(out, opcode, payload, kKey, fin);
    return out;
}

ListenerOptions secure()
{
    ListenerOptions options;
    options.tls = selfSigned();
    return options;
}

} // namespace

class TestConnection : public QObject
{
    Q_OBJECT
private slots:
    void messagesGoBothWays_data()
    {
        QTest::addColumn<bool>("tls");
        QTest::newRow("plain") << false;
        QTest::newRow("tls") << true;
    }
    void messagesGoBothWays()
    {
        QFETCH(bool, tls);
        Relay relay(tls ? secure() : ListenerOptions{});
        relay.saw->whenText = [](Connection& connection, std::string_view text) {
            connection.sendText("heard " + std::string(text));
            connection.sendBinary(std::string(70'000, 'b'));
        };
        const auto [client, seen] = relay.connect();
        seen->whenOpen = [](WsClient& self) {
            self.sendText("hello");
            self.sendBinary("\x01\x02");
        };
        QVERIFY(
            relay.until([&, seen = seen] { return seen->binaries.size() == 1 && relay.saw->binaries.size() == 1; }));
        QCOMPARE(seen->texts, std::vector<std::string>{"heard hello"});
        QCOMPARE(seen->binaries[0], std::string(70'000, 'b'));
        QCOMPARE(relay.saw->binaries[0], std::string("\x01\x02"));
        QCOMPARE(relay.saw->opened[0]->address(), std::string("127.0.0.1"));
        QCOMPARE(relay.loop.counters().open, std::uint64_t{1});
        QCOMPARE(relay.loop.counters().messagesIn, std::uint64_t{2});
    }

    void violationsCloseThatConnectionOnly_data()
    {
        QTest::addColumn<QByteArray>("bytes");
        QTest::addColumn<int>("code");
        QTest::addColumn<CloseReason>("reason");
        const auto row = [](const char* name, const std::string& bytes, CloseCode code, CloseReason reason) {
            QTest::newRow(name) << QByteArray::fromStdString(bytes) << static_cast<int>(code) << reason;
        };
        std::string unmasked;
        wire::appendFrame(unmasked, Opcode::text, "bare");
        row("unmasked", unmasked, CloseCode::protocolError, CloseReason::badFrame);
        row("too big", masked(Opcode::binary, std::string(5000, 'x')), CloseCode::tooBig, CloseReason::tooBig);
        row("not UTF-8", masked(Opcode::text, "\xFF"), CloseCode::notUtf8, CloseReason::badText);
        row("bad fragments", masked(Opcode::continuation, "x"), CloseCode::protocolError, CloseReason::badFrame);
        row("orderly", masked(Opcode::close, wire::closePayload(CloseCode::goingAway, "bye")), CloseCode::goingAway,
            CloseReason::byPeer);
    }
    void violationsCloseThatConnectionOnly()
    {
        QFETCH(QByteArray, bytes);
        QFETCH(int, code);
        QFETCH(CloseReason, reason);
        Relay relay;
        const auto [good, goodSeen] = relay.connect();
        const auto [bad, badSeen] = relay.connect();
        QVERIFY(relay.until([&, a = goodSeen, b = badSeen] { return a->open && b->open; }));
        bad->sendRaw(bytes.toStdString());
        QVERIFY(relay.until([&, b = badSeen] { return b->ended && relay.saw->closed.size() == 1; }));
        QCOMPARE(static_cast<int>(badSeen->code), code);
        QCOMPARE(relay.saw->closed[0], reason);
        QCOMPARE(relay.closedBy(reason), std::uint64_t{1});
        good->sendText("still here");
        QVERIFY(relay.until([&] { return !relay.saw->texts.empty(); }));
        QVERIFY(!goodSeen->ended);
        QCOMPARE(relay.loop.counters().open, std::uint64_t{1});
    }

    void fragmentsBecomeOneMessage()
    {
        Relay relay;
        const auto [client, seen] = relay.connect();
        QVERIFY(relay.until([s = seen] { return s->open; }));
        client->sendRaw(masked(Opcode::text, "one ", false) + masked(Opcode::ping, "p") +
                        masked(Opcode::continuation, "message"));
        QVERIFY(relay.until([&] { return !relay.saw->texts.empty(); }));
        QCOMPARE(relay.saw->texts[0], std::string("one message"));
    }

    void theLimitFollowsTheLogin()
    {
        Relay relay;
        relay.saw->whenText = [](Connection& connection, std::string_view) { connection.setMaxMessageBytes(100'000); };
        const auto [client, seen] = relay.connect();
        QVERIFY(relay.until([s = seen] { return s->open; }));
        client->sendText("login");
        client->sendText(std::string(90'000, 'x'));
        QVERIFY(relay.until([&] { return relay.saw->texts.size() == 2; }));
        client->sendText(std::string(100'001, 'x'));
        QVERIFY(relay.until([s = seen] { return s->ended; }));
        QCOMPARE(seen->code, CloseCode::tooBig);
    }

    void closeSaysWhyAndIsReportedOnce()
    {
        Relay relay;
        relay.saw->whenText = [](Connection& connection, std::string_view) {
            connection.sendText("last words");
            connection.close(CloseCode::policy, "revoked");
            connection.close(CloseCode::normal, "again");
            connection.sendText("never");
        };
        const auto [client, seen] = relay.connect();
        QVERIFY(relay.until([s = seen] { return s->open; }));
        client->sendText("x");
        QVERIFY(relay.until([&, s = seen] { return s->ended && !relay.saw->closed.empty(); }));
        QCOMPARE(seen->code, CloseCode::policy);
        QCOMPARE(seen->reason, std::string("revoked"));
        QCOMPARE(relay.saw->closed, std::vector<CloseReason>{CloseReason::byUs});
        relay.saw->opened.clear();
        bool later = false;
        const auto wait = relay.loop.after(5ms, [&] { later = true; });
        QVERIFY(relay.until([&] { return later; }));
        QCOMPARE(relay.saw->closed.size(), std::size_t{1});
    }

    void aSilentPeerIsPingedThenClosed()
    {
        ListenerOptions options;
        options.limits.pingAfter = 100ms;
        options.limits.silentAfter = 1500ms;
        options.limits.closing = 100ms;
        Relay relay(std::move(options));
        const auto [alive, aliveSeen] = relay.connect();   // answers pings
        const auto [silent, silentSeen] = relay.connect(); // reads nothing any more: a half-open line
        QVERIFY(relay.until([&, a = aliveSeen, b = silentSeen] { return a->open && b->open; }));
        silent->pauseReading();
        QVERIFY(relay.until([&] { return relay.closedBy(CloseReason::silent) == 1; }));
        QVERIFY(!aliveSeen->ended);
        QCOMPARE(relay.loop.counters().open, std::uint64_t{1});
    }

    void aLostLineIsReported()
    {
        Relay relay;
        const auto [client, seen] = relay.connect();
        QVERIFY(relay.until([s = seen] { return s->open; }));
        client->drop();
        QVERIFY(relay.until([&] { return !relay.saw->closed.empty(); }));
        QCOMPARE(relay.saw->closed[0], CloseReason::lost);
    }

    void privateFramesAboveTheirLimitCloseTooSlow()
    {
        ListenerOptions options;
        options.limits.outgoing.ordinaryBytes = 10'000;
        Relay relay(std::move(options));
        const auto [slow, slowSeen] = relay.connect();
        const auto [other, otherSeen] = relay.connect();
        QVERIFY(relay.until([&] { return relay.saw->opened.size() == 2; }));
        auto& connection = *relay.saw->opened[0];
        for (int i = 0; i < 11; ++i)
            connection.sendText(std::string(1000, 'x'));
        QVERIFY(!connection.isOpen());
        QVERIFY(relay.until([&] { return !relay.saw->closed.empty(); }));
        QCOMPARE(relay.saw->closed[0], CloseReason::tooSlow);
        QVERIFY(relay.until([a = slowSeen, b = otherSeen] { return a->ended || b->ended; }));
        QCOMPARE(slowSeen->ended ? slowSeen->reason : otherSeen->reason, std::string("too-slow"));
    }

    void largePartsHaveALimitOfTheirOwn()
    {
        ListenerOptions options;
        options.limits.outgoing = {10'000, 400'000};
        Relay relay(std::move(options));
        const auto [client, seen] = relay.connect();
        QVERIFY(relay.until([&] { return relay.saw->opened.size() == 1; }));
        auto& connection = *relay.saw->opened[0];
        connection.sendText(std::string(300'000, 'x'), 0, Weight::bulk);
        connection.sendText("small");
        QVERIFY(relay.until([s = seen] { return s->texts.size() == 2; }));
        QCOMPARE(seen->texts[0].size(), std::size_t{300'000});
        QCOMPARE(seen->texts[1], std::string("small"));
    }

    void theNewestInASlotWins()
    {
        Relay relay;
        const auto [client, seen] = relay.connect();
        QVERIFY(relay.until([&, s = seen] { return s->open && relay.saw->opened.size() == 1; }));
        for (int i = 1; i <= 5; ++i)
            relay.saw->opened[0]->sendNewest(0, makeFrame(Opcode::binary, "roster " + std::to_string(i)));
        relay.saw->opened[0]->sendNewest(1, makeFrame(Opcode::binary, "other"));
        QVERIFY(relay.until([s = seen] { return s->binaries.size() == 2; }));
        QCOMPARE(seen->binaries, (std::vector<std::string>{"roster 5", "other"}));
        QCOMPARE(relay.loop.counters().droppedNewest, std::uint64_t{4});
    }

    void aConnectionMovesToAnotherLoop_data() { messagesGoBothWays_data(); }
    void aConnectionMovesToAnotherLoop()
    {
        QFETCH(bool, tls);
        auto hallSaw = std::make_shared<ServerSaw>();
        std::atomic<int> heard{0};
        std::atomic<bool> wrongThread{false};
        LoopThread hallThread;
        Relay relay(tls ? secure() : ListenerOptions{});
        hallSaw->whenText = [&](Connection& connection, std::string_view text) {
            wrongThread = wrongThread || !hallThread.loop().isHere();
            connection.sendText("hall heard " + std::string(text));
            ++heard;
        };
        relay.saw->whenText = [&](Connection& connection, std::string_view) {
            connection.moveTo(hallThread.loop(), [&](Connection& moved) { moved.setHandler(hallSaw); });
        };
        const auto [client, seen] = relay.connect();
        // The login and what follows it arrive in one piece: nothing may be lost, nothing read by the wrong side.
        seen->whenOpen = [](WsClient& self) {
            std::string all = masked(Opcode::text, "login");
            for (int i = 0; i < 50; ++i)
                all += masked(Opcode::text, std::to_string(i));
            self.sendRaw(all);
            self.sendText("later");
        };
        QVERIFY(relay.until([&, s = seen] { return s->texts.size() == 51; }));
        QCOMPARE(relay.saw->texts, std::vector<std::string>{"login"});
        QCOMPARE(heard.load(), 51);
        QVERIFY(!wrongThread);
        for (int i = 0; i < 50; ++i)
            QCOMPARE(seen->texts[static_cast<std::size_t>(i)], "hall heard " + std::to_string(i));
        QCOMPARE(relay.loop.counters().open, std::uint64_t{0});
        client->drop();
        relay.saw->opened.clear();
        std::atomic<bool> closed{false};
        QVERIFY(relay.until([&] {
            hallThread.loop().post([&] { closed = !hallSaw->closed.empty(); });
            return closed.load();
        }));
    }
};

QTEST_GUILESS_MAIN(TestConnection)
#include "test_connection.moc"
