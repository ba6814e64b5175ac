// The line of a home against the real relay: the three ways in, coming back, the relay's key.
#include "tests/app/link/relay_here.h"

#include <QSignalSpy>
#include <QtTest>

using namespace vh;
using namespace vh::link;
using vh::testing::RelayHere;

namespace
{

/// A line and all it was told.
struct Heard {
    explicit Heard(const Clock& clock) : line(clock)
    {
        QObject::connect(&line, &Line::received, &line, [this](const wire::ToClient& message) {
            if (const auto* seen = std::get_if<wire::Door>(&message))
                door = *seen;
            if (std::holds_alternative<wire::Welcome>(message))
                ++welcomes;
        });
        QObject::connect(&line, &Line::answered, &line, [this](const RequestId&, const wire::Ack&, const Error* error) {
            ++(error ? refused : done);
        });
    }
    Line line;
    wire::Door door;
    int welcomes = 0;
    int done = 0;
    int refused = 0;
};

} // namespace

class TestLineRelay : public QObject
{
    Q_OBJECT
private:
    SystemClock m_clock;

private slots:
    void aNewNameKnocksAndIsLetIn()
    {
        RelayHere relay(ops::Tls::off);
        const auto group = relay.addGroup("Lakeside voices");
        Heard helper(m_clock);
        helper.line.open(relay.redeeming(group.id, store::Role::helper));
        QTRY_COMPARE(helper.line.state(), LineState::in);

        Heard ruth(m_clock);
        Entry entry = relay.entry(Entry::How::knock);
        entry.code = group.code;
        ruth.line.open(entry);
        QTRY_COMPARE(ruth.line.state(), LineState::atDoor);
        QVERIFY(!ruth.line.welcome());
        QTRY_COMPARE(helper.door.waiting.size(), std::size_t{1});
        QCOMPARE(helper.door.waiting.front().name, std::string("Ruth"));
        helper.line.ask(wire::LetIn{{}, helper.door.waiting.front().door, {}});
        QTRY_COMPARE(ruth.line.state(), LineState::in);
        QCOMPARE(ruth.line.welcome()->name, std::string("Ruth"));
        QCOMPARE(ruth.line.welcome()->groupName, std::string("Lakeside voices"));
    }

    void aLineLostAtTheDoorKnocksAgainAndIsStillOneKnock()
    {
        RelayHere relay(ops::Tls::off);
        const auto group = relay.addGroup("Lakeside voices");
        Heard helper(m_clock);
        helper.line.open(relay.redeeming(group.id, store::Role::helper));
        Heard ruth(m_clock);
        Entry entry = relay.entry(Entry::How::knock);
        entry.code = group.code;
        ruth.line.open(entry);
        QTRY_COMPARE(ruth.line.state(), LineState::atDoor);
        ruth.line.pullCable();
        QCOMPARE(ruth.line.state(), LineState::lost);
        QTRY_COMPARE(ruth.line.state(), LineState::atDoor);
        QTRY_COMPARE(helper.door.waiting.size(), std::size_t{1});
    }

    void aWrongCodeEndsWithTheRelaysWords()
    {
        RelayHere relay(ops::Tls::off);
        relay.addGroup("Lakeside voices");
        Heard ruth(m_clock);
        Entry entry = relay.entry(Entry::How::knock);
        entry.code = "ACDEFG";
        ruth.line.open(entry);
        QTRY_COMPARE(ruth.line.state(), LineState::ended);
        QVERIFY(ruth.line.ending().contains("code"));
    }

    void aLinkEnrolsThisDeviceWhichLogsInFromThenOn()
    {
        RelayHere relay(ops::Tls::selfSigned);
        const auto group = relay.addGroup("Lakeside voices");
        Heard first(m_clock);
        const Entry entry = relay.redeeming(group.id, store::Role::participant);
        first.line.open(entry);
        QTRY_COMPARE(first.line.state(), LineState::in);
        const wire::Welcome welcome = *first.line.welcome();
        first.line.close();
        QCOMPARE(first.line.state(), LineState::closed);

        const Membership kept{entry.host,     entry.port,   entry.pin,    welcome.group,       welcome.groupName,
                              welcome.person, welcome.name, welcome.role, entry.keys.publicKey};
        Heard again(m_clock);
        again.line.open(entryOf(kept, entry.keys));
        QTRY_COMPARE(again.line.state(), LineState::in);
        QCOMPARE(again.line.welcome()->person, welcome.person);
        QVERIFY(again.line.welcome()->role == Role::participant);
    }

    void whatWasAskedForIsDoneOnceHoweverOftenTheLineIsLost()
    {
        RelayHere relay(ops::Tls::off);
        const auto group = relay.addGroup("Lakeside voices");
        Heard ruth(m_clock);
        ruth.line.open(relay.redeeming(group.id, store::Role::participant));
        QTRY_COMPARE(ruth.line.state(), LineState::in);
        constexpr int kLines = 12;
        for (int i = 0; i < kLines; ++i) {
            ruth.line.ask(wire::Write{{}, "Good morning " + std::to_string(i)});
            // The cable goes at another moment each time: before it was sent, on its way, after the answer.
            for (int turns = 0; turns < i % 4; ++turns)
                QCoreApplication::processEvents(QEventLoop::AllEvents, 5);
            ruth.line.pullCable();
            QTRY_COMPARE(ruth.line.state(), LineState::in);
        }
        QTRY_COMPARE(ruth.done, kLines);
        QCOMPARE(ruth.refused, 0);
        QCOMPARE(ruth.line.unanswered(), std::size_t{0});
        const auto held = relay.beside(
            [&](store::Tables& tables) -> Result<std::vector<store::BoardRow>> { return tables.board.held(group.id); });
        QCOMPARE(held.size(), std::size_t{kLines});
    }

    void whatWasAskedForWhileTheRelayWasDownIsDoneWhenItIsBack()
    {
        RelayHere relay(ops::Tls::selfSigned);
        const auto group = relay.addGroup("Lakeside voices");
        Heard ruth(m_clock);
        ruth.line.open(relay.redeeming(group.id, store::Role::participant));
        QTRY_COMPARE(ruth.line.state(), LineState::in);
        relay.stop();
        QTRY_COMPARE(ruth.line.state(), LineState::lost);
        ruth.line.ask(wire::Agree{{}, AgreementKind::resultsKept, "yes", 1});
        ruth.line.tell(wire::Today{}); // live: nobody waits for it
        QCOMPARE(ruth.line.unanswered(), std::size_t{1});
        relay.start();
        QTRY_COMPARE_WITH_TIMEOUT(ruth.line.state(), LineState::in, 15'000);
        QTRY_COMPARE(ruth.done, 1);
        const auto agreed = relay.beside([&](store::Tables& tables) -> Result<std::size_t> {
            return tables.agreements.history(ruth.line.welcome()->person).size();
        });
        QCOMPARE(agreed, std::size_t{1});
    }

    void thePinOfTheLineIsThePinOfTheRelay()
    {
        RelayHere relay(ops::Tls::selfSigned);
        const auto group = relay.addGroup("Lakeside voices");
        Heard ruth(m_clock);
        Entry entry = relay.entry(Entry::How::knock);
        entry.code = group.code;
        ruth.line.open(entry);
        QTRY_COMPARE(ruth.line.state(), LineState::atDoor);
        QVERIFY(relay.pin());
        QVERIFY(ruth.line.seenPin() == relay.pin());
        QVERIFY(!ruth.line.entry().pin); // not until somebody has let her in
    }

    void aKeyThatNobodyVouchesForAndThatHasNoWordsEndsTheLine()
    {
        // As behind somebody in the middle of the way to a relay with a public certificate: nobody could compare.
        RelayHere relay(ops::Tls::certificate);
        const auto group = relay.addGroup("Lakeside voices");
        Heard ruth(m_clock);
        Entry entry = relay.entry(Entry::How::knock);
        entry.code = group.code;
        ruth.line.open(entry);
        QTRY_COMPARE(ruth.line.state(), LineState::ended);
        QVERIFY(ruth.line.ending().contains("127.0.0.1"));
    }

    void byTheCodeAloneTheKeyIsPinnedWhenItWasComparedAndNotBefore()
    {
        RelayHere relay(ops::Tls::selfSigned);
        const auto group = relay.addGroup("Lakeside voices");
        Heard helper(m_clock);
        helper.line.open(relay.redeeming(group.id, store::Role::helper));
        Heard ruth(m_clock);
        Entry entry = relay.entry(Entry::How::knock);
        entry.code = group.code;
        ruth.line.open(entry);
        QTRY_COMPARE(helper.door.waiting.size(), std::size_t{1});
        helper.line.ask(wire::LetIn{{}, helper.door.waiting.front().door, {}});
        QTRY_COMPARE(ruth.line.state(), LineState::in);
        QVERIFY(!ruth.line.entry().pin);
        QVERIFY(ruth.line.isUncompared());
        ruth.line.pullCable();
        QTRY_COMPARE(ruth.line.state(), LineState::in); // the same key may come back to be compared
        ruth.line.trustSeenKey();
        QVERIFY(!ruth.line.isUncompared());
        QVERIFY(ruth.line.entry().pin == relay.pin());
    }

    void aKeyThatChangesAtTheDoorEndsTheLine()
    {
        RelayHere relay(ops::Tls::selfSigned);
        const auto group = relay.addGroup("Lakeside voices");
        Heard ruth(m_clock);
        Entry entry = relay.entry(Entry::How::knock);
        entry.code = group.code;
        ruth.line.open(entry);
        QTRY_COMPARE(ruth.line.state(), LineState::atDoor);
        relay.stop();
        relay.loseKey();
        relay.start();
        QTRY_COMPARE_WITH_TIMEOUT(ruth.line.state(), LineState::ended, 15'000);
        QVERIFY(ruth.line.ending().contains("key has changed"));
    }

    void aChangedKeyStopsWithWordsAndThereIsNoWayRound()
    {
        RelayHere relay(ops::Tls::selfSigned);
        const auto group = relay.addGroup("Lakeside voices");
        Heard ruth(m_clock);
        const Entry entry = relay.redeeming(group.id, store::Role::participant);
        ruth.line.open(entry);
        QTRY_COMPARE(ruth.line.state(), LineState::in);
        const wire::Welcome welcome = *ruth.line.welcome();
        relay.stop();
        relay.loseKey();
        relay.start();
        QVERIFY(relay.pin() != entry.pin);
        QTRY_COMPARE_WITH_TIMEOUT(ruth.line.state(), LineState::ended, 15'000);
        QVERIFY(ruth.line.ending().contains("key has changed"));
        QCOMPARE(ruth.welcomes, 1);

        Entry again = entry;
        again.how = Entry::How::login;
        again.group = welcome.group;
        ruth.line.open(again);
        QTRY_COMPARE(ruth.line.state(), LineState::ended);
        QCOMPARE(ruth.welcomes, 1);
    }

    void withoutAPinAKeyThatNobodyVouchesForIsNotTaken()
    {
        RelayHere relay(ops::Tls::selfSigned);
        const auto group = relay.addGroup("Lakeside voices");
        Heard ruth(m_clock);
        Entry entry = relay.redeeming(group.id, store::Role::participant);
        entry.pin.reset();
        ruth.line.open(entry);
        QTRY_COMPARE(ruth.line.state(), LineState::ended);
        QVERIFY(ruth.line.ending().contains("127.0.0.1"));
        QCOMPARE(ruth.welcomes, 0);
    }

    void theRelaysTimeIsKnownByItsOwnClock()
    {
        // The relay's clock stands, 40 minutes ahead of ours, which stands too: the offset is then exact.
        HandClock ours(Instant{Millis{1'700'000'000'000}});
        HandClock theirs(ours.now() + std::chrono::minutes(40));
        RelayHere relay(ops::Tls::off, &theirs);
        const auto group = relay.addGroup("Lakeside voices");
        Heard ruth(ours);
        ruth.line.open(relay.redeeming(group.id, store::Role::participant));
        QTRY_COMPARE(ruth.line.state(), LineState::in);
        QVERIFY(ruth.line.relayNow() == theirs.now());
        ours.advance(Millis{1234});
        QVERIFY(ruth.line.relayNow() == theirs.now() + Millis{1234});
    }
};

QTEST_GUILESS_MAIN(TestLineRelay)
#include "test_line_relay.moc"
