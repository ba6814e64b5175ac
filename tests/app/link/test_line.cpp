// The line of a home against a relay that does what a test tells it to: busy, close codes, clock, the order of things.
#include "app/link/line.h"
#include "tests/app/link/scripted_relay.h"

using namespace vh;
using namespace vh::link;
using vh::testing::ScriptedRelay;

namespace
{

Entry entryTo(const ScriptedRelay& relay, Entry::How how = Entry::How::login)
{
    Entry entry;
    entry.how = how;
    entry.host = "127.0.0.1";
    entry.port = relay.port();
    entry.group = GroupId::random();
    entry.name = "Ruth";
    entry.code = "K7M42P";
    entry.keys = wire::makeKeyPair();
    entry.plain = true;
    return entry;
}

} // namespace

class TestLine : public QObject
{
    Q_OBJECT
private:
    HandClock m_clock{Instant{Millis{1'700'000'000'000}}};

private slots:
    void aRequestThatWasNotTakenYetIsAskedAgainUnderTheSameId_data()
    {
        QTest::addColumn<std::string>("code");
        QTest::newRow("busy") << std::string("busy");
        QTest::newRow("the disk") << std::string("store-failed");
    }
    void aRequestThatWasNotTakenYetIsAskedAgainUnderTheSameId()
    {
        QFETCH(const std::string, code);
        ScriptedRelay relay;
        Line line(m_clock);
        QSignalSpy answered(&line, &Line::answered);
        line.open(entryTo(relay));
        QTRY_COMPARE(line.state(), LineState::in);
        const RequestId id = line.ask(wire::HelpCall{});
        const auto first = relay.hear<wire::HelpCall>();
        QVERIFY(first && first->id == id);
        relay.send(wire::Refused{id, code, "One moment."});
        const auto second = relay.hear<wire::HelpCall>();
        QVERIFY(second && second->id == id);
        QCOMPARE(answered.size(), 0);
        relay.send(wire::Ack{id, {}, {}, {}, {}, {}});
        QTRY_COMPARE(answered.size(), 1);
        relay.send(wire::Ack{id, {}, {}, {}, {}, {}}); // once more: nobody is told twice
        relay.send(wire::Here{});
        QSignalSpy received(&line, &Line::received);
        QTRY_COMPARE(received.size(), 1);
        QCOMPARE(answered.size(), 1);
    }

    void theTimeIsAskedForAlreadyOnTheWayIn()
    {
        ScriptedRelay relay;
        relay.letsIn = false;
        Line line(m_clock);
        line.open(entryTo(relay, Entry::How::knock));
        QVERIFY(relay.hear<wire::Hello>());
        const auto asked = relay.hear<wire::ClockAsk>();
        QVERIFY(asked);
        QVERIFY(relay.hear<wire::Knock>());
        const Instant theirs = m_clock.now() + Millis{90'000};
        relay.send(wire::ClockAnswer{asked->sent, theirs, theirs});
        QTRY_VERIFY(line.relayNow() == theirs);
    }

    void theExchangeWithTheLeastDelayCounts()
    {
        ScriptedRelay relay;
        Line line(m_clock);
        relay.welcome.now = m_clock.now() + Millis{5'000};
        line.open(entryTo(relay));
        const auto asked = relay.hear<wire::ClockAsk>();
        QTRY_COMPARE(line.state(), LineState::in);
        QVERIFY(line.relayNow() == m_clock.now() + Millis{5'000}); // a first idea, from the welcome
        const Instant sent{Millis{asked->sent}};
        m_clock.advance(Millis{100}); // there and back took 100 ms, 50 each way
        relay.send(wire::ClockAnswer{asked->sent, sent + Millis{4'050}, sent + Millis{4'050}});
        QTRY_VERIFY(line.relayNow() == m_clock.now() + Millis{4'000});
    }

    void closeCodesThatAreFinalEndTheLine_data()
    {
        QTest::addColumn<int>("code");
        QTest::newRow("another device") << 4001;
        QTest::newRow("revoked") << 4002;
        QTest::newRow("turned away") << 4003;
        QTest::newRow("not known") << 4004;
    }
    void closeCodesThatAreFinalEndTheLine()
    {
        QFETCH(const int, code);
        ScriptedRelay relay;
        Line line(m_clock);
        line.open(entryTo(relay));
        QTRY_COMPARE(line.state(), LineState::in);
        relay.closeWith(code, "This device has been removed from the group.");
        QTRY_COMPARE(line.state(), LineState::ended);
        QCOMPARE(line.ending(), "This device has been removed from the group.");
        line.pullCable(); // nothing wakes it
        QCOMPARE(line.state(), LineState::ended);
    }

    void otherCloseCodesAreALostLineThatComesBack_data()
    {
        QTest::addColumn<int>("code");
        QTest::newRow("restarting") << 1001;
        QTest::newRow("too slow or silent for a while") << 1008;
        QTest::newRow("try later") << 4005;
    }
    void otherCloseCodesAreALostLineThatComesBack()
    {
        QFETCH(const int, code);
        ScriptedRelay relay;
        Line line(m_clock);
        line.open(entryTo(relay));
        QTRY_COMPARE(line.state(), LineState::in);
        relay.closeWith(code, "later");
        QTRY_COMPARE(line.state(), LineState::lost);
        QTRY_COMPARE(line.state(), LineState::in);
        QCOMPARE(relay.connections(), 2);
    }

    void policyOnTheWayInIsFinal()
    {
        ScriptedRelay relay;
        relay.letsIn = false;
        Line line(m_clock);
        line.open(entryTo(relay));
        QVERIFY(relay.hear<wire::Login>());
        relay.closeWith(1008, "This relay speaks version 1 of the protocol. Please update.");
        QTRY_COMPARE(line.state(), LineState::ended);
        QVERIFY(line.ending().contains("update"));
    }

    void whoCameInByALinkComesBackByTheirKeyAndSaysWhatTheyKnow()
    {
        ScriptedRelay relay;
        relay.welcome.group = GroupId::random();
        relay.welcome.seq = 40;
        wire::BoardItem item;
        item.change = 7;
        item.text = "Good morning";
        relay.welcome.board = {item};
        Line line(m_clock);
        line.open(entryTo(relay, Entry::How::redeem));
        QTRY_COMPARE(line.state(), LineState::in);
        wire::PlaceNow place;
        place.seq = 41;
        relay.send(place);
        QSignalSpy received(&line, &Line::received);
        QTRY_COMPARE(received.size(), 1);
        line.pullCable();
        const auto login = relay.hear<wire::Login>();
        QVERIFY(login);
        QVERIFY(login->group == relay.welcome.group);
        QVERIFY(login->epoch == relay.epoch);
        QCOMPARE(login->lastSeq.value_or(0), std::uint64_t{41});
        QCOMPARE(login->boardSince, std::uint64_t{7});
        QVERIFY(relay.hear<wire::Redeem>());
        for (const auto& message : relay.heard)
            QVERIFY(!std::holds_alternative<wire::Redeem>(message)); // the link was used just once
    }

    void requestsGoUpAgainInTheirOrderAndLiveThingsDoNot()
    {
        ScriptedRelay relay;
        Line line(m_clock);
        line.open(entryTo(relay));
        QTRY_COMPARE(line.state(), LineState::in);
        line.pullCable();
        line.tell(wire::Today{});
        const RequestId first = line.ask(wire::Write{{}, "one"});
        const RequestId second = line.ask(wire::Write{{}, "two"});
        const auto one = relay.hear<wire::Write>();
        const auto two = relay.hear<wire::Write>();
        QVERIFY(one && two);
        QVERIFY(one->id == first && two->id == second);
        for (const auto& message : relay.heard)
            QVERIFY(!std::holds_alternative<wire::Today>(message));
    }

    void whatGoesFirstGoesBeforeAllThatWaitsAndWhatWasDroppedNever()
    {
        ScriptedRelay relay;
        Line line(m_clock);
        line.open(entryTo(relay));
        const RequestId result = line.ask(wire::TurnDone{});
        line.ask(wire::Write{{}, "one"});
        const RequestId kept = RequestId::random();
        line.askFirst(wire::Agree{kept, AgreementKind::resultsKept, "no", 1});
        line.askFirst(wire::Agree{{}, AgreementKind::levelVisible, "nobody", 1});
        line.drop(result);
        QVERIFY(relay.hear<wire::Login>());
        QTRY_COMPARE(relay.heard.size(), std::size_t{5}); // hello and the clock before them
        const auto* first = std::get_if<wire::Agree>(&relay.heard[2]);
        const auto* second = std::get_if<wire::Agree>(&relay.heard[3]);
        QVERIFY(first && first->id == kept);
        QVERIFY(second && second->kind == AgreementKind::levelVisible && !second->id.isNull());
        QVERIFY(std::holds_alternative<wire::Write>(relay.heard[4]));
        QCOMPARE(line.unanswered(), std::size_t{3});
    }

    void theOldestRequestIsGivenUpWithWordsWhenTooManyWait()
    {
        ScriptedRelay relay;
        Line line(m_clock); // never opened: nothing is ever answered
        QStringList codes;
        std::vector<RequestId> ids;
        connect(&line, &Line::answered, this, [&](const RequestId& id, const wire::Ack&, const Error* error) {
            ids.push_back(id);
            codes.append(error ? QString::fromStdString(error->code) : QString());
        });
        const RequestId oldest = line.ask(wire::HelpCall{});
        for (std::size_t i = 0; i < Line::kMostUnanswered; ++i)
            line.ask(wire::HelpCall{});
        QCOMPARE(line.unanswered(), Line::kMostUnanswered);
        QCOMPARE(codes, QStringList{"gave-up"});
        QVERIFY(ids.front() == oldest);
    }
};

QTEST_GUILESS_MAIN(TestLine)
#include "test_line.moc"
