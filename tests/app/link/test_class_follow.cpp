// Following the open class: parts come once, by hash, and nothing is taken that is not what it claims to be.
#include "app/link/class_follow.h"
#include "common/wire/binary.h"
#include "common/wire/script_json.h"
#include "tests/app/link/scripted_relay.h"
#include "tests/common/live/scripts.h"

using namespace vh;
using namespace vh::link;
using vh::testing::ScriptedRelay;

namespace
{

std::string partOf(const wire::Hash& claimed, const std::string& bytes)
{
    return wire::encodePart(claimed, {reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size()});
}

} // namespace

class TestClassFollow : public QObject
{
    Q_OBJECT
private:
    HandClock m_clock{Instant{Millis{1'700'000'000'000}}};
    const std::string m_png = "stands for the bytes of a picture";
    ClassScript m_script;
    std::string m_text;
    wire::ClassOpen m_open;

    Entry entryTo(const ScriptedRelay& relay) const
    {
        Entry entry;
        entry.host = "127.0.0.1";
        entry.port = relay.port();
        entry.keys = wire::makeKeyPair();
        entry.plain = true;
        return entry;
    }
    wire::PlaceNow placeAt(Place place, Phase phase) const
    {
        wire::PlaceNow now;
        now.classId = m_open.classId;
        now.place = place;
        now.phase = phase;
        now.turnSerial = 3;
        now.turnStartedAt = m_clock.now();
        now.turnLength = Millis{5000};
        return now;
    }

private slots:
    void init()
    {
        m_script = vh::testing::smallClass();
        m_script.theme = "The baker's shop";
        m_text = wire::encodeScript(m_script);
        m_open = {};
        m_open.classId = ClassId::random();
        m_open.title = "A walk to the baker";
        m_open.parts = {wire::sha256(m_text), wire::sha256(m_png)};
    }

    void scriptAndPictureArriveAndTheTurnIsKnown()
    {
        ScriptedRelay relay;
        relay.welcome.open = m_open;
        relay.welcome.place = placeAt({1, 0, 0, 3}, Phase::running);
        Line line(m_clock);
        ClassFollow follow(line);
        QSignalSpy changed(&follow, &ClassFollow::changed);
        line.open(entryTo(relay));
        const auto first = relay.hear<wire::PartAsk>();
        QVERIFY(first && first->hash == m_open.parts[0]); // the script first
        QVERIFY(!follow.turn());
        relay.sendBytes(partOf(m_open.parts[0], m_text));
        QTRY_VERIFY(follow.script());
        const auto turn = follow.turn();
        QVERIFY(turn && turn->turn->kind == TurnKind::yours);
        const std::string file = hexOf(m_open.parts[1]) + ".png";
        QVERIFY(follow.picture(file).isEmpty());
        const auto second = relay.hear<wire::PartAsk>(); // one at a time
        QVERIFY(second && second->hash == m_open.parts[1]);
        changed.clear();
        relay.sendBytes(partOf(m_open.parts[1], m_png));
        QTRY_COMPARE(changed.size(), 1);
        QCOMPARE(follow.picture(file), QByteArray::fromStdString(m_png));
        QVERIFY(follow.picture("../../etc/passwd").isEmpty());
        QVERIFY(follow.picture("").isEmpty());
    }

    void bytesThatAreNotWhatTheyClaimToBeAreNotTaken()
    {
        ScriptedRelay relay;
        relay.welcome.open = m_open;
        Line line(m_clock);
        ClassFollow follow(line);
        line.open(entryTo(relay));
        QVERIFY(relay.hear<wire::PartAsk>());
        QSignalSpy changed(&follow, &ClassFollow::changed);
        QSignalSpy binaries(&line, &Line::binaryReceived);
        relay.sendBytes(partOf(m_open.parts[0], m_text + " ")); // another text under the right name
        relay.sendBytes(partOf(wire::sha256("not asked for"), "not asked for"));
        relay.sendBytes("");
        relay.sendBytes("\x01");
        relay.sendBytes(partOf(m_open.parts[0], m_text).substr(0, 20));
        QTRY_COMPARE(binaries.size(), 5);
        QVERIFY(!follow.script());
        QCOMPARE(changed.size(), 0);
        relay.sendBytes(partOf(m_open.parts[0], m_text)); // the right one is still taken
        QTRY_VERIFY(follow.script());
        QCOMPARE(follow.script()->title, m_script.title);
    }

    void aScriptThatDoesNotHoldIsNotTaken()
    {
        const std::string text = R"({"title":7})";
        m_open.parts = {wire::sha256(text)};
        ScriptedRelay relay;
        relay.welcome.open = m_open;
        relay.welcome.place = placeAt({}, Phase::running);
        Line line(m_clock);
        ClassFollow follow(line);
        QSignalSpy binaries(&line, &Line::binaryReceived);
        line.open(entryTo(relay));
        QVERIFY(relay.hear<wire::PartAsk>());
        relay.sendBytes(partOf(m_open.parts[0], text));
        QTRY_COMPARE(binaries.size(), 1);
        QVERIFY(!follow.script());
        QVERIFY(!follow.turn());
    }

    void whatHadNotArrivedIsFetchedAfterALostLineAndNothingTwice()
    {
        ScriptedRelay relay;
        relay.welcome.open = m_open;
        Line line(m_clock);
        ClassFollow follow(line);
        line.open(entryTo(relay));
        QVERIFY(relay.hear<wire::PartAsk>());
        relay.sendBytes(partOf(m_open.parts[0], m_text));
        QVERIFY(relay.hear<wire::PartAsk>());
        QVERIFY(follow.script());
        line.pullCable();
        const auto again = relay.hear<wire::PartAsk>();
        QVERIFY(again && again->hash == m_open.parts[1]);
        QVERIFY(relay.hear<wire::ClockAsk>());
        QVERIFY(follow.script()); // kept meanwhile
        for (const auto& message : relay.heard)
            QVERIFY(!std::holds_alternative<wire::PartAsk>(message));
    }

    void theTurnRunsByTheRelaysTimeAndStandsWhileTheClockIsHeld()
    {
        ScriptedRelay relay;
        relay.welcome.now = m_clock.now();
        relay.welcome.open = m_open;
        relay.welcome.place = placeAt({1, 0, 0, 3}, Phase::running);
        Line line(m_clock);
        ClassFollow follow(line);
        line.open(entryTo(relay));
        QTRY_VERIFY(follow.place());
        m_clock.advance(Millis{2000});
        QVERIFY(follow.turnLeft() == Millis{3000});
        wire::PlaceNow held = placeAt({1, 0, 0, 3}, Phase::waiting);
        held.turnSpent = Millis{2000};
        relay.send(held);
        QTRY_VERIFY(follow.place()->phase == Phase::waiting);
        m_clock.advance(Millis{60'000});
        QVERIFY(follow.turnLeft() == Millis{3000});
    }

    void whatIsRefusedForNowIsAskedForAgainAndWhatIsNotThereIsLeftOut()
    {
        m_open.parts.push_back(wire::sha256("another picture"));
        ScriptedRelay relay;
        relay.welcome.open = m_open;
        Line line(m_clock);
        ClassFollow follow(line);
        line.open(entryTo(relay));
        QVERIFY(relay.hear<wire::PartAsk>());
        relay.send(wire::Refused{{}, "busy", "Please try again in a moment."});
        const auto again = relay.hear<wire::PartAsk>();
        QVERIFY(again && again->hash == m_open.parts[0]);
        relay.sendBytes(partOf(m_open.parts[0], m_text));
        const auto second = relay.hear<wire::PartAsk>();
        QVERIFY(second && second->hash == m_open.parts[1]);
        relay.send(wire::Refused{{}, "part-unknown", "The open class has no such part."});
        const auto third = relay.hear<wire::PartAsk>();
        QVERIFY(third && third->hash == m_open.parts[2]);
    }

    void theSameScriptInAnotherOrderOrInAnotherClassIsStillThere()
    {
        m_open.parts.push_back(wire::sha256("another picture"));
        ScriptedRelay relay;
        relay.welcome.open = m_open;
        Line line(m_clock);
        ClassFollow follow(line);
        line.open(entryTo(relay));
        QVERIFY(relay.hear<wire::PartAsk>());
        relay.sendBytes(partOf(m_open.parts[0], m_text));
        QTRY_VERIFY(follow.script());
        std::swap(m_open.parts[1], m_open.parts[2]); // as after a restart of the relay
        relay.send(m_open);
        QTRY_VERIFY(follow.open()->parts == m_open.parts);
        QVERIFY(follow.script());
        m_open.classId = ClassId::random();
        relay.send(m_open);
        QTRY_VERIFY(follow.open()->classId == m_open.classId);
        QVERIFY(follow.script());
    }

    void aCorrectedClassGoesOnWithTheOldScriptUntilTheNewOneIsThere()
    {
        ScriptedRelay relay;
        relay.welcome.open = m_open;
        relay.welcome.place = placeAt({1, 0, 0, 3}, Phase::running);
        Line line(m_clock);
        ClassFollow follow(line);
        line.open(entryTo(relay));
        QVERIFY(relay.hear<wire::PartAsk>());
        relay.sendBytes(partOf(m_open.parts[0], m_text));
        QVERIFY(relay.hear<wire::PartAsk>());
        relay.sendBytes(partOf(m_open.parts[1], m_png));
        QTRY_VERIFY(follow.script());

        ClassScript corrected = m_script;
        corrected.sections[1].steps[0].text = "Warm rolls, please";
        const std::string text = wire::encodeScript(corrected);
        wire::ClassOpen open = m_open;
        open.seq = 4;
        open.parts[0] = wire::sha256(text);
        relay.send(open);
        const auto ask = relay.hear<wire::PartAsk>();
        QVERIFY(ask && ask->hash == open.parts[0]); // and the picture is here already
        QVERIFY(follow.place());
        QCOMPARE(follow.turn()->step->text, m_script.sections[1].steps[0].text);
        relay.sendBytes(partOf(open.parts[0], text));
        QTRY_COMPARE(follow.turn()->step->text, std::string("Warm rolls, please"));
        QCOMPARE(follow.picture(hexOf(m_open.parts[1]) + ".png"), QByteArray::fromStdString(m_png));
    }

    void anotherClassForgetsTheOneBefore()
    {
        ScriptedRelay relay;
        relay.welcome.open = m_open;
        relay.welcome.place = placeAt({}, Phase::running);
        Line line(m_clock);
        ClassFollow follow(line);
        line.open(entryTo(relay));
        QVERIFY(relay.hear<wire::PartAsk>());
        relay.sendBytes(partOf(m_open.parts[0], m_text));
        QTRY_VERIFY(follow.turn());
        wire::ClassOpen next = m_open;
        next.classId = ClassId::random();
        next.parts = {wire::sha256("another")};
        relay.send(next);
        QTRY_VERIFY(follow.open()->classId == next.classId);
        QVERIFY(!follow.script());
        QVERIFY(!follow.place());
        QVERIFY(!follow.turn());
    }
};

QTEST_GUILESS_MAIN(TestClassFollow)
#include "test_class_follow.moc"
