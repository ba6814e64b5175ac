#include "tests/common/live/scripts.h"

#include <QtTest>

using namespace vh;
using namespace vh::testing;
using namespace std::chrono_literals;

class TestClassClock : public QObject
{
    Q_OBJECT
private slots:
    void beforeTheStartNothingMoves()
    {
        Class c;
        c.wait(10min);
        QCOMPARE(c.state.phase, Phase::notStarted);
        QCOMPARE(c.state.serial, 0U);
        QCOMPARE(homeLine(c.state), HomeLine::classNotStarted);
    }

    // The places and times of a class in which nobody presses anything are those of the plan, to the millisecond,
    // although the clock is looked at late and unevenly.
    void leftAloneTheClassIsThePlan()
    {
        std::mt19937 random(5);
        for (int run = 0; run < 30; ++run) {
            Class c;
            c.script = randomClass(random, 10'000); // so that the leader is never missed for half a minute
            c.state = openClass(c.script, 1, kLeader, {}, c.now);
            QCOMPARE(c.start(), Refusal::none);
            Instant planned = c.now;
            std::uint32_t serial = 1;
            for (std::optional<Place> at = Place{}; at; at = nextTurn(c.script, *at), ++serial) {
                const Millis length = turnAt(c.script, *at)->turn->planned;
                // Somewhere within the turn.
                const Millis into{std::uniform_int_distribution<std::int64_t>(0, length.count() - 1)(random)};
                c.state = leaderSeen(c.script, c.state, kLeader, planned + into);
                QCOMPARE(c.state.place, *at);
                QCOMPARE(c.state.turnStartedAt, planned);
                QCOMPARE(c.state.turnLength, length);
                QCOMPARE(c.state.serial, serial);
                QCOMPARE(c.state.turnSerial, serial);
                QCOMPARE(turnSpent(c.state, planned + into), into);
                planned += length;
            }
            c.state = tick(c.script, c.state, planned);
            QCOMPARE(c.state.phase, Phase::ended);
            QCOMPARE(*c.state.endedAt, planned);
            QCOMPARE(*c.state.endedAt - *c.state.startedAt, plannedLength(c.script));
            QCOMPARE(homeLine(c.state), HomeLine::ended);
            QVERIFY(!nextChangeAt(c.state));
        }
    }

    void oneBigStepIsManySmallOnes()
    {
        std::mt19937 random(6);
        for (int run = 0; run < 50; ++run) {
            Class c;
            c.script = randomClass(random);
            c.state = openClass(c.script, 1, kLeader, {}, c.now);
            (void)c.start();
            ClassState small = c.state;
            const Instant until = c.now + Millis{std::uniform_int_distribution<int>(0, 60'000)(random)};
            for (Instant at = c.now; at < until; at += Millis{std::uniform_int_distribution<int>(1, 700)(random)})
                small = tick(c.script, small, at);
            small = tick(c.script, small, until);
            QCOMPARE(small, tick(c.script, c.state, until));
        }
    }

    void onceTheClassIsOverNobodyIsMissed()
    {
        Class c;
        (void)c.start();
        c.wait(77s); // a second before its end
        const ClassState atOnce = tick(c.script, c.state, c.now + 10s);
        QCOMPARE(atOnce.phase, Phase::ended);
        QVERIFY(!atOnce.silentSince);
        QCOMPARE(tick(c.script, tick(c.script, c.state, c.now + 2s), c.now + 10s), atOnce);
    }

    void aTurnIsOverExactlyWhenItsTimeIs()
    {
        Class c;
        (void)c.start();
        QCOMPARE(tick(c.script, c.state, kNoon + 9999ms).place, (Place{0, 0, 0, 0}));
        QCOMPARE(tick(c.script, c.state, kNoon + 10s).place, (Place{1, 0, 0, 0}));
    }

    void timeNeverRunsBackwards()
    {
        Class c;
        (void)c.start();
        c.wait(12s);
        QCOMPARE(tick(c.script, c.state, kNoon + 3s), c.state);
        QCOMPARE(turnSpent(c.state, kNoon), Millis{0});
        c.now = kNoon + 3s; // a clock set back
        QCOMPARE(c.press(CommandKind::wait).refusal, Refusal::none);
        QCOMPARE(c.state.turnSpent, Millis{2000}); // held at the latest moment that was known: 12 s
        QCOMPARE(c.press(CommandKind::resume).refusal, Refusal::none);
        QCOMPARE(c.state.turnStartedAt, kNoon + 10s);
    }

    void theNextChangeIsWhenTheNextChangeIs()
    {
        Class c;
        (void)c.start();
        c.leaderThere = false;
        int changes = 0;
        for (ClassState state = c.state; const auto at = nextChangeAt(state);) {
            QCOMPARE(tick(c.script, state, *at - 1ms), state);
            const ClassState next = tick(c.script, state, *at);
            QVERIFY(next != state);
            state = next;
            ++changes;
        }
        // silent (3 s), turns at 10, 14, 16, 20, 25, 29 s, calm pause (30 s)
        QCOMPARE(changes, 8);
    }

    void expectedEndFollowsWhatHappens()
    {
        Class c;
        QCOMPARE(expectedEnd(c.script, c.state, c.now), kNoon + 78s);
        c.wait(60s);
        QCOMPARE(behindPlan(c.script, c.state, c.now), Millis{0}); // a late start is no delay of the class
        (void)c.start();
        const Instant begun = c.now;
        c.wait(5s);
        QCOMPARE(expectedEnd(c.script, c.state, c.now), begun + 78s);
        (void)c.press(CommandKind::goOn); // 5 s early
        QCOMPARE(expectedEnd(c.script, c.state, c.now), begun + 73s);
        QCOMPARE(behindPlan(c.script, c.state, c.now), Millis{-5000});
        (void)c.press(CommandKind::wait);
        c.wait(20s);
        QCOMPARE(behindPlan(c.script, c.state, c.now), Millis{15'000});
        (void)c.press(CommandKind::end);
        QCOMPARE(expectedEnd(c.script, c.state, c.now + 1h), begun + 25s);
        QCOMPARE(behindPlan(c.script, c.state, c.now + 1h), Millis{-53'000});
    }

    void namesGoBothWays()
    {
        for (const auto phase : {Phase::notStarted, Phase::running, Phase::waiting, Phase::calmPause, Phase::ended})
            QCOMPARE(*phaseOf(nameOf(phase)), phase);
        for (const auto kind : {CommandKind::start, CommandKind::goOn, CommandKind::back, CommandKind::onceMore,
                                CommandKind::wait, CommandKind::resume, CommandKind::skip, CommandKind::end})
            QCOMPARE(*commandKindOf(nameOf(kind)), kind);
        for (const auto refusal :
             {Refusal::none, Refusal::oldLease, Refusal::oldPlace, Refusal::notNow, Refusal::notLeader})
            QCOMPARE(*refusalOf(nameOf(refusal)), refusal);
        QCOMPARE(nameOf(Phase::calmPause), std::string_view("calmPause"));
        QCOMPARE(nameOf(CommandKind::onceMore), std::string_view("onceMore"));
        QVERIFY(!phaseOf("Running"));
        QVERIFY(!commandKindOf(""));
    }
};

QTEST_APPLESS_MAIN(TestClassClock)
#include "test_class_clock.moc"
