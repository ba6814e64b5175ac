#include "net_fixture.h"

#include <QtTest>

#include <random>

using namespace vh;
using namespace vh::net;
using namespace vh::net::test;
using namespace std::chrono_literals;
using wire::Opcode;

namespace
{

/// A payload that proves itself: its number, then bytes that follow from the number.
std::string numbered(std::uint32_t number, std::size_t size)
{
    std::string payload(std::max<std::size_t>(size, 4), '\0');
    std::memcpy(payload.data(), &number, 4);
    for (std::size_t i = 4; i < payload.size(); ++i)
        payload[i] = static_cast<char>(number * 31 + i);
    return payload;
}

bool provesItself(std::span<const std::uint8_t> payload)
{
    std::uint32_t number = 0;
    if (payload.size() < 4)
        return false;
    std::memcpy(&number, payload.data(), 4);
    const auto expected = numbered(number, payload.size());
    return std::memcmp(expected.data(), payload.data(), payload.size()) == 0;
}

/// A home that counts, checks every frame and the order of them, and can stop and start at any byte.
struct Home final : ClientHandler {
    ~Home() override = default;
    void onOpen(WsClient&) override { open = true; }
    void onBinary(WsClient&, std::span<const std::uint8_t> payload) override
    {
        std::uint32_t number = 0;
        whole = whole && provesItself(payload);
        std::memcpy(&number, payload.data(), std::min<std::size_t>(4, payload.size()));
        inOrder = inOrder && (frames == 0 || number > last);
        last = number;
        ++frames;
    }
    void onText(WsClient&, std::string_view text) override { texts.emplace_back(text); }
    void onClosed(WsClient&, wire::CloseCode, std::string_view reason) override
    {
        ended = true;
        why = reason;
    }
    bool open = false;
    bool ended = false;
    bool whole = true;
    bool inOrder = true;
    std::uint32_t last = 0;
    std::size_t frames = 0;
    std::vector<std::string> texts;
    std::string why;
};

struct Hall {
    explicit Hall(ListenerOptions options = {}, LogLimits limits = {})
        : relay(std::move(options)), log(relay.loop, limits)
    {
        relay.saw->whenOpen = [this](Connection& connection) { connection.attach(log); };
    }
    std::shared_ptr<WsClient> join(const std::shared_ptr<Home>& home)
    {
        return WsClient::connect(relay.loop, relay.clientOptions, home);
    }
    Relay relay;
    HallLog log;
};

ListenerOptions tightOptions(bool tls)
{
    ListenerOptions options;
    options.tls = tls ? selfSigned() : nullptr;
    options.limits.sendBufferBytes = 4096; // full soon, so that many writes stop inside a frame
    options.limits.notSentLowWater = 2048;
    return options;
}

} // namespace

class TestHallLog : public QObject
{
    Q_OBJECT
private slots:
    void everyHomeHearsEveryFrameInOrder()
    {
        Hall hall;
        std::vector<std::shared_ptr<Home>> homes;
        for (int i = 0; i < 150; ++i) // more than two slices
            hall.join(homes.emplace_back(std::make_shared<Home>()));
        QVERIFY(hall.relay.until([&] { return hall.log.memberCount() == 150; }));
        std::uint32_t number = 0;
        const auto publish = hall.relay.loop.every(1ms, [&] {
            if (number < 100)
                hall.log.append(Opcode::binary, numbered(number++, 80), FrameKind::droppable);
        });
        QVERIFY(hall.relay.until([&] {
            return std::all_of(homes.begin(), homes.end(), [](const auto& home) { return home->frames == 100; });
        }));
        for (const auto& home : homes)
            QVERIFY(home->whole && home->inOrder);
        QCOMPARE(hall.relay.loop.counters().framesOut, std::uint64_t{15'000});
        QVERIFY(hall.relay.loop.counters().logSends <= 15'000);
        QCOMPARE(hall.relay.loop.counters().skippedDroppable, std::uint64_t{0});
    }

    void aPrivateFrameKeepsItsPlaceInTheOrder()
    {
        Hall hall;
        const auto home = std::make_shared<Home>();
        const auto client = hall.join(home);
        QVERIFY(hall.relay.until([&] { return hall.log.memberCount() == 1; }));
        auto& connection = *hall.relay.saw->opened[0];
        // All in one go, so that the order is decided by the writer alone.
        const auto first = hall.log.append(Opcode::text, "place 1", FrameKind::lasting);
        connection.sendText("after 1", first);
        const auto second = hall.log.append(Opcode::text, "place 2", FrameKind::lasting);
        hall.log.append(Opcode::text, "place 3", FrameKind::lasting);
        connection.sendText("after 2", second);
        connection.sendText("at once, but not before what was sent first");
        connection.sendText("after what never comes", second + 1000);
        QVERIFY(hall.relay.until([&] { return home->texts.size() == 7; }));
        QCOMPARE(home->texts, (std::vector<std::string>{"place 1", "after 1", "place 2", "after 2",
                                                        "at once, but not before what was sent first", "place 3",
                                                        "after what never comes"}));
    }

    void aReaderThatStopsJumpsAndIsTold_data()
    {
        QTest::addColumn<bool>("tls");
        QTest::newRow("plain") << false;
        QTest::newRow("tls") << true;
    }
    void aReaderThatStopsJumpsAndIsTold()
    {
        QFETCH(bool, tls);
        Hall hall(tightOptions(tls), LogLimits{.droppableAge = 100ms, .liveEdge = 20ms});
        hall.relay.clientOptions.receiveBufferBytes = 4096;
        hall.relay.saw->whenSkipped = [&](Connection& connection, Skipped missed) {
            if (missed.lasting > 0)
                connection.sendText("the state again", hall.log.end());
        };
        const auto home = std::make_shared<Home>();
        const auto other = std::make_shared<Home>();
        const auto client = hall.join(home);
        hall.join(other);
        QVERIFY(hall.relay.until([&] { return hall.log.memberCount() == 2; }));
        client->pauseReading();
        std::uint32_t number = 0;
        const auto publish = hall.relay.loop.every(1ms, [&] {
            if (number < 500) {
                hall.log.append(Opcode::binary, numbered(number++, 400), FrameKind::droppable);
                if (number == 450)
                    hall.log.append(Opcode::text, "place", FrameKind::lasting);
            }
        });
        QVERIFY(hall.relay.until([&] { return number == 500 && other->frames == 500; }));
        bool rested = false;
        const auto rest = hall.relay.loop.after(150ms, [&] { rested = true; });
        QVERIFY(hall.relay.until([&] { return rested; }));
        client->resumeReading();
        QVERIFY(hall.relay.until([&] { return !home->texts.empty(); }));
        QCOMPARE(home->texts.back(), std::string("the state again"));
        QVERIFY(home->whole && home->inOrder && !home->ended);
        QVERIFY(home->frames < 500);
        QCOMPARE(hall.relay.saw->skipped.lasting, std::uint64_t{1});
        QCOMPARE(hall.relay.saw->skipped.droppable, 500 - home->frames);
        QCOMPARE(other->texts, std::vector<std::string>{"place"});
        QCOMPARE(hall.relay.loop.counters().skippedLasting, std::uint64_t{1});
    }

    void homesThatStopAndStartAtRandomBytesReadWholeFrames_data() { aReaderThatStopsJumpsAndIsTold_data(); }
    void homesThatStopAndStartAtRandomBytesReadWholeFrames()
    {
        QFETCH(bool, tls);
        constexpr std::size_t kHomes = 200;
        constexpr std::uint32_t kFrames = 600;
        Hall hall(tightOptions(tls), LogLimits{.bytes = 16 * 1024, .droppableAge = 40ms, .liveEdge = 10ms});
        hall.relay.clientOptions.receiveBufferBytes = 2048;
        std::vector<std::shared_ptr<Home>> homes;
        std::vector<std::shared_ptr<WsClient>> clients;
        for (std::size_t i = 0; i < kHomes; ++i)
            clients.push_back(hall.join(homes.emplace_back(std::make_shared<Home>())));
        QVERIFY(hall.relay.until([&] { return hall.log.memberCount() == kHomes; }));

        std::mt19937 random(20);
        std::uint32_t number = 0;
        const auto publish = hall.relay.loop.every(1ms, [&] {
            if (number < kFrames) {
                const auto kind = number % 50 == 0 ? FrameKind::lasting : FrameKind::droppable;
                hall.log.append(Opcode::binary, numbered(number, 20 + random() % 1500), kind);
                ++number;
            }
        });
        auto stopAndStart = hall.relay.loop.every(1ms, [&] {
            for (int i = 0; i < 20; ++i) {
                auto& client = *clients[random() % kHomes];
                client.setReadLimit(1 + random() % 700);
                if (random() % 2 == 0)
                    client.pauseReading();
                else
                    client.resumeReading();
                // private frames in between, of every size
                auto& connection = *hall.relay.saw->opened[random() % kHomes];
                if (random() % 8 == 0)
                    connection.sendText(std::string(random() % 3000, 'p'), hall.log.end());
            }
        });
        QVERIFY(hall.relay.until([&] { return number == kFrames; }));
        stopAndStart.cancel();
        for (const auto& client : clients) {
            client->setReadLimit(0);
            client->resumeReading();
        }
        // Newer than all others, so everybody who reads gets it whatever was skipped.
        const auto sendEnd = hall.relay.loop.every(
            50ms, [&] { hall.log.append(Opcode::binary, numbered(number++, 40), FrameKind::droppable); });
        QVERIFY(hall.relay.until([&] {
            return std::all_of(homes.begin(), homes.end(), [](const auto& home) { return home->last >= kFrames; });
        }));
        for (const auto& home : homes)
            QVERIFY(home->whole && home->inOrder && !home->ended);
        QVERIFY(hall.relay.loop.counters().skippedDroppable > 0); // else the test proved nothing
        QCOMPARE(hall.relay.saw->closed.size(), std::size_t{0});
    }

    void whoLeavesDuringAFlushHidesNobodyElse()
    {
        Hall hall;
        std::vector<std::shared_ptr<Home>> homes;
        for (int i = 0; i < 200; ++i)
            hall.join(homes.emplace_back(std::make_shared<Home>()));
        QVERIFY(hall.relay.until([&] { return hall.log.memberCount() == 200; }));
        hall.log.append(Opcode::binary, numbered(1, 80), FrameKind::droppable);
        // After the first slice has been visited, some of it leave.
        hall.relay.loop.post([&] {
            for (int i = 0; i < 60; i += 2)
                hall.relay.saw->opened[static_cast<std::size_t>(i)]->detach();
        });
        QVERIFY(hall.relay.until([&] {
            return std::count_if(homes.begin(), homes.end(), [](const auto& home) { return home->frames == 1; }) == 200;
        }));
        QCOMPARE(hall.log.memberCount(), std::size_t{170});
    }

    void theLogMayGoBeforeItsMembers()
    {
        Relay relay;
        auto log = std::make_unique<HallLog>(relay.loop);
        relay.saw->whenOpen = [&](Connection& connection) { connection.attach(*log); };
        const auto [client, seen] = relay.connect();
        QVERIFY(relay.until([&] { return log->memberCount() == 1; }));
        log->append(Opcode::text, "unheard", FrameKind::lasting);
        log.reset();
        relay.saw->opened[0]->sendText("goodbye");
        QVERIFY(relay.until([s = seen] { return !s->texts.empty(); }));
        QCOMPARE(seen->texts[0], std::string("goodbye"));
        QVERIFY(!relay.saw->opened[0]->log());
    }

    void whoJoinsFromTheBeginningHearsWhatIsKept()
    {
        Relay relay;
        HallLog log(relay.loop);
        log.append(Opcode::text, "before", FrameKind::lasting);
        relay.saw->whenOpen = [&](Connection& connection) { connection.attach(log, Connection::From::begin); };
        const auto [client, seen] = relay.connect();
        QVERIFY(relay.until([s = seen] { return !s->texts.empty(); }));
        QCOMPARE(seen->texts[0], std::string("before"));
        relay.saw->opened.clear();
        client->drop();
        QVERIFY(relay.until([&] { return log.memberCount() == 0; }));
    }
};

QTEST_GUILESS_MAIN(TestHallLog)
#include "test_hall_log.moc"
