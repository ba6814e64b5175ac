// The handout over a line: whole and as offered, or nothing; only when it is wanted, and never while a class runs.
#include "app/link/handout_fetch.h"
#include "common/wire/binary.h"
#include "tests/app/link/scripted_relay.h"

using namespace vh;
using namespace vh::link;
using vh::testing::ScriptedRelay;

namespace
{

const std::string kFirst = "%PDF-1.4 the first part, ";
const std::string kSecond = "and the second";

std::string partOf(const std::string& bytes)
{
    return wire::encodePart(wire::sha256(bytes), {reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size()});
}

wire::HandoutNow offerOf(const std::vector<std::string>& parts)
{
    wire::HandoutNow offer;
    offer.classId = ClassId::random();
    offer.title = "Bread";
    std::string whole;
    for (const std::string& part : parts) {
        whole += part;
        offer.parts.push_back(wire::sha256(part));
    }
    offer.bytes = static_cast<std::uint32_t>(whole.size());
    offer.hash = wire::sha256(whole);
    return offer;
}

/// A home on a line to a relay that says what the test tells it to.
struct Home {
    explicit Home(ScriptedRelay& relay)
    {
        Entry entry;
        entry.host = "127.0.0.1";
        entry.port = relay.port();
        entry.keys = wire::makeKeyPair();
        entry.plain = true;
        line.open(entry);
    }
    HandClock clock{Instant{Millis{1'700'000'000'000}}};
    Line line{clock};
    ClassFollow follow{line};
    HandoutFetch handout{line, follow};
    QSignalSpy fetched{&handout, &HandoutFetch::fetched};
    QSignalSpy failed{&handout, &HandoutFetch::failed};
};

} // namespace

class TestHandoutFetch : public QObject
{
    Q_OBJECT
private slots:
    void nothingIsFetchedBeforeItIsWantedAndThenPartByPart()
    {
        ScriptedRelay relay;
        relay.welcome.handout = offerOf({kFirst, kSecond});
        Home home(relay);
        QTRY_VERIFY(home.handout.offered());
        QVERIFY(relay.hear<wire::ClockAsk>());
        for (const auto& message : relay.heard)
            QVERIFY(!std::holds_alternative<wire::PartAsk>(message));
        home.handout.fetch();
        auto asked = relay.hear<wire::PartAsk>();
        QVERIFY(asked && asked->hash == wire::sha256(kFirst));
        relay.sendBytes(partOf(kFirst));
        asked = relay.hear<wire::PartAsk>();
        QVERIFY(asked && asked->hash == wire::sha256(kSecond));
        relay.sendBytes(partOf(kSecond));
        QTRY_COMPARE(home.fetched.size(), 1);
        QCOMPARE(home.fetched[0][0].toByteArray(), QByteArray::fromStdString(kFirst + kSecond));
        QVERIFY(home.failed.isEmpty());
        QVERIFY(!home.follow.part(wire::sha256(kFirst))); // not kept twice
    }

    void whatIsNotAsOfferedIsNotGivenOn_data()
    {
        QTest::addColumn<int>("fault");
        QTest::newRow("another size") << 0;
        QTest::newRow("another hash of the whole") << 1;
        QTest::newRow("no PDF") << 2;
    }
    void whatIsNotAsOfferedIsNotGivenOn()
    {
        QFETCH(int, fault);
        const std::string part = fault == 2 ? "MZ a program" : kFirst;
        wire::HandoutNow offer = offerOf({part});
        if (fault == 0)
            ++offer.bytes;
        else if (fault == 1)
            offer.hash = wire::sha256("another");
        ScriptedRelay relay;
        relay.welcome.handout = offer;
        Home home(relay);
        QTRY_VERIFY(home.handout.offered());
        home.handout.fetch();
        QVERIFY(relay.hear<wire::PartAsk>());
        relay.sendBytes(partOf(part));
        QTRY_COMPARE(home.failed.size(), 1);
        QVERIFY(home.fetched.isEmpty());
        QVERIFY(!home.handout.isFetching()); // it can be asked for again
    }

    void aPartThatTheRelayDoesNotHaveEndsIt()
    {
        ScriptedRelay relay;
        relay.welcome.handout = offerOf({kFirst, kSecond});
        Home home(relay);
        QTRY_VERIFY(home.handout.offered());
        home.handout.fetch();
        QVERIFY(relay.hear<wire::PartAsk>());
        relay.send(wire::Refused{{}, "busy", "Please try again in a moment."}); // asked again by itself
        QVERIFY(relay.hear<wire::PartAsk>());
        QVERIFY(home.failed.isEmpty());
        relay.send(wire::Refused{{}, "part-unknown", "There is no such part."});
        QTRY_COMPARE(home.failed.size(), 1);
        home.handout.fetch();
        const auto again = relay.hear<wire::PartAsk>();
        QVERIFY(again && again->hash == wire::sha256(kFirst));
    }

    void whileAClassRunsNothingMoreIsAskedFor()
    {
        wire::HandoutNow offer = offerOf({kFirst, kSecond});
        ScriptedRelay relay;
        relay.welcome.handout = offer;
        wire::ClassOpen open;
        open.classId = offer.classId;
        open.parts = {wire::sha256("a script")};
        relay.welcome.open = open;
        wire::PlaceNow place;
        place.classId = offer.classId;
        place.phase = Phase::notStarted;
        relay.welcome.place = place;
        Home home(relay);
        QTRY_VERIFY(home.handout.offered());
        QVERIFY(relay.hear<wire::PartAsk>()); // the script's, first
        relay.sendBytes(partOf("a script"));
        QTRY_VERIFY(home.follow.part(wire::sha256("a script")));
        home.handout.fetch();
        auto asked = relay.hear<wire::PartAsk>();
        QVERIFY(asked && asked->hash == wire::sha256(kFirst));
        place.phase = Phase::running;
        relay.send(place);
        QTRY_VERIFY(home.follow.place()->phase == Phase::running);
        relay.sendBytes(partOf(kFirst)); // it was on its way
        QTRY_VERIFY(home.follow.part(wire::sha256(kFirst)));
        for (const auto& message : relay.heard)
            QVERIFY(!std::holds_alternative<wire::PartAsk>(message));
        place.phase = Phase::ended;
        relay.send(place);
        asked = relay.hear<wire::PartAsk>();
        QVERIFY(asked && asked->hash == wire::sha256(kSecond));
        relay.sendBytes(partOf(kSecond));
        QTRY_COMPARE(home.fetched.size(), 1);
    }

    void aNewerOneIsFetchedInItsPlaceAndTheNextClassEndsIt()
    {
        const wire::HandoutNow first = offerOf({kFirst});
        ScriptedRelay relay;
        relay.welcome.handout = first;
        Home home(relay);
        QTRY_VERIFY(home.handout.offered());
        home.handout.fetch();
        QVERIFY(relay.hear<wire::PartAsk>());
        wire::HandoutNow second = offerOf({kFirst, kSecond});
        second.classId = first.classId;
        relay.send(second);
        QTRY_VERIFY(home.handout.offered()->hash == second.hash);
        QVERIFY(home.handout.isFetching());
        wire::ClassOpen next;
        next.classId = ClassId::random();
        next.parts = {wire::sha256("a script")};
        relay.send(next);
        QTRY_VERIFY(!home.handout.offered());
        QCOMPARE(home.failed.size(), 1);
        QVERIFY(!home.handout.isFetching());
    }
};

QTEST_GUILESS_MAIN(TestHandoutFetch)
#include "test_handout_fetch.moc"
