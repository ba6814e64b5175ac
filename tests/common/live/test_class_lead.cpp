#include "tests/common/live/scripts.h"

#include <QtTest>

using namespace vh;
using namespace vh::testing;
using namespace std::chrono_literals;

Q_DECLARE_METATYPE(vh::Role)
Q_DECLARE_METATYPE(vh::Refusal)

namespace
{

/// Running for 12 s, then the leader vanishes for so long.
Class withoutLeaderFor(Millis gone)
{
    Class c;
    (void)c.start();
    c.wait(12s);
    c.leaderThere = false;
    c.wait(gone);
    return c;
}

} // namespace

class TestClassLead : public QObject
{
    Q_OBJECT
private slots:
    void afterThreeSecondsHomesSaySo()
    {
        QCOMPARE(homeLine(withoutLeaderFor(2999ms).state), HomeLine::classRuns);
        const Class c = withoutLeaderFor(3s);
        QCOMPARE(homeLine(c.state), HomeLine::leaderAway);
        QCOMPARE(*c.state.silentSince, kNoon + 12s);
    }

    void whileSheIsMissedTheTurnsGoOn()
    {
        const Class c = withoutLeaderFor(29s);
        QCOMPARE(c.state.phase, Phase::running);
        QCOMPARE(c.state.place, (Place{1, 1, 0, 0})); // at 41 s
    }

    void afterThirtySecondsTheClockIsHeld()
    {
        Class c = withoutLeaderFor(10min);
        QCOMPARE(c.state.phase, Phase::calmPause);
        QCOMPARE(homeLine(c.state), HomeLine::calmPause);
        QCOMPARE(c.state.place, (Place{1, 1, 0, 0})); // as at 42 s
        QCOMPARE(c.state.turnSpent, Millis{2000});
    }

    void aHeldClassComesToACalmPauseToo()
    {
        Class c;
        (void)c.start();
        (void)c.press(CommandKind::wait);
        c.leaderThere = false;
        c.wait(30s);
        QCOMPARE(c.state.phase, Phase::calmPause);
        QCOMPARE(c.state.turnSpent, Millis{0});
    }

    void beforeTheStartThereIsNothingToPause()
    {
        Class c;
        c.leaderThere = false;
        c.wait(10min);
        QCOMPARE(c.state.phase, Phase::notStarted);
        QVERIFY(c.state.silentSince);
    }

    void backBeforeThePauseNothingIsLost()
    {
        Class c = withoutLeaderFor(20s);
        c.leaderThere = true;
        c.wait(1s);
        QCOMPARE(homeLine(c.state), HomeLine::classRuns);
        QCOMPARE(c.state.place, (Place{1, 0, 1, 2})); // at 33 s, as planned
        QVERIFY(!c.state.silentSince);
    }

    void theReturningLeaderFindsThePlaceAndGoesOnFromThere()
    {
        Class c = withoutLeaderFor(2min);
        const std::uint32_t beforeThePause = c.state.serial - 1;
        c.leaderThere = true;
        c.wait(30s);
        QCOMPARE(c.state.phase, Phase::calmPause); // until she says so
        QCOMPARE(c.press(CommandKind::goOn, beforeThePause).refusal, Refusal::oldPlace);
        QCOMPARE(c.press(CommandKind::resume).refusal, Refusal::none);
        QCOMPARE(c.state.place, (Place{1, 1, 0, 0}));
        QCOMPARE(turnSpent(c.state, c.now), Millis{2000});
        QCOMPARE(homeLine(c.state), HomeLine::classRuns);
    }

    void aPressIsASignOfLife()
    {
        Class c = withoutLeaderFor(10s);
        (void)c.press(CommandKind::goOn);
        QVERIFY(!c.state.silentSince);
        QCOMPARE(c.state.lease.lastSeen, c.now);
    }

    void nobodyElseIsASignOfLife()
    {
        Class c = withoutLeaderFor(10s);
        QCOMPARE(leaderSeen(c.script, c.state, kSomebody, c.now), c.state);
        (void)apply(c.script, c.state, Command{CommandKind::goOn, kSomebody, 1, c.state.serial}, c.now);
        QVERIFY(c.state.silentSince);
    }

    void whoMayTakeThePlace_data()
    {
        QTest::addColumn<int>("who");
        QTest::addColumn<Role>("role");
        QTest::addColumn<bool>("leaderSilent");
        QTest::addColumn<Refusal>("refusal");
        using enum Role;
        QTest::newRow("the leader herself, from another device") << 1 << leader << false << Refusal::none;
        QTest::newRow("the leader while nobody hears her") << 1 << leader << true << Refusal::none;
        QTest::newRow("a stand-in while the leader is here") << 2 << participant << false << Refusal::notNow;
        QTest::newRow("a stand-in when she is gone") << 2 << participant << true << Refusal::none;
        QTest::newRow("a stand-in who is a helper") << 2 << moderator << true << Refusal::none;
        QTest::newRow("another leader while she is here") << 3 << leader << false << Refusal::notNow;
        QTest::newRow("another leader when she is gone") << 3 << leader << true << Refusal::none;
        QTest::newRow("a participant") << 4 << participant << true << Refusal::notLeader;
        QTest::newRow("a helper") << 4 << moderator << true << Refusal::notLeader;
    }
    void whoMayTakeThePlace()
    {
        QFETCH(int, who);
        QFETCH(Role, role);
        QFETCH(bool, leaderSilent);
        QFETCH(Refusal, refusal);
        Class c = withoutLeaderFor(leaderSilent ? 5s : 1s);
        const PersonId taker = person(static_cast<std::uint8_t>(who));
        const Outcome outcome = takePlace(c.script, c.state, taker, role, c.now);
        QCOMPARE(outcome.refusal, refusal);
        QCOMPARE(mayTake(c.state, taker, role), refusal);
        if (refusal != Refusal::none) {
            QCOMPARE(outcome.state, c.state);
            return;
        }
        QCOMPARE(outcome.state.lease.holder, taker);
        QCOMPARE(outcome.state.lease.epoch, c.state.lease.epoch + 1);
        QVERIFY(!outcome.state.silentSince);
        QCOMPARE(outcome.state.place, c.state.place);
        QCOMPARE(outcome.state.serial, c.state.serial);
    }

    void nobodyTakesAnEndedClass()
    {
        Class c = withoutLeaderFor(0s);
        (void)c.press(CommandKind::end);
        QCOMPARE(mayTake(c.state, kLeader, Role::leader), Refusal::notNow);
        QCOMPARE(takePlace(c.script, c.state, kLeader, Role::leader, c.now).state, c.state);
    }

    void theStandInLeadsAndTheLeaderTakesThePlaceBack()
    {
        Class c = withoutLeaderFor(1min);
        const Command hers{CommandKind::resume, kLeader, c.state.lease.epoch, c.state.serial};
        c.state = takePlace(c.script, c.state, kStandIn, Role::participant, c.now).state;
        QCOMPARE(homeLine(c.state), HomeLine::calmPause); // one key takes the place; going on is the next
        QCOMPARE(c.press(CommandKind::resume).refusal, Refusal::none);
        QCOMPARE(homeLine(c.state), HomeLine::standInLeads);

        QCOMPARE(apply(c.script, c.state, hers, c.now).refusal, Refusal::notLeader); // a press of hers, late
        c.leaderThere = true;                                                        // whoever holds the place
        c.wait(5s);
        const Place here = c.state.place;
        const Outcome back = takePlace(c.script, c.state, kLeader, Role::leader, c.now);
        QCOMPARE(back.refusal, Refusal::none);
        QCOMPARE(back.state.place, here);
        QCOMPARE(back.state.phase, Phase::running);
        QCOMPARE(homeLine(back.state), HomeLine::classRuns);
        c.state = back.state;
        QCOMPARE(apply(c.script, c.state, hers, c.now).refusal, Refusal::oldLease);
        QCOMPARE(c.press(CommandKind::wait).refusal, Refusal::none);
    }

    void aStandInWhoVanishesIsMissedLikeTheLeader()
    {
        Class c = withoutLeaderFor(5s);
        c.state = takePlace(c.script, c.state, kStandIn, Role::participant, c.now).state;
        c.wait(4s);
        QCOMPARE(homeLine(c.state), HomeLine::leaderAway);
        c.wait(26s);
        QCOMPARE(c.state.phase, Phase::calmPause);
    }

    void theStandInHandsThePlaceBack()
    {
        Class c = withoutLeaderFor(5s);
        c.state = takePlace(c.script, c.state, kStandIn, Role::participant, c.now).state;
        const auto hand = [&](PersonId by, std::uint32_t epoch, PersonId to) {
            return handOver(c.script, c.state, by, epoch, to, c.now);
        };
        QCOMPARE(hand(kLeader, 2, kLeader).refusal, Refusal::notLeader);
        QCOMPARE(hand(kStandIn, 1, kLeader).refusal, Refusal::oldLease);
        QCOMPARE(hand(kStandIn, 2, kSomebody).refusal, Refusal::notLeader);
        const Outcome outcome = hand(kStandIn, 2, kLeader);
        QCOMPARE(outcome.refusal, Refusal::none);
        QCOMPARE(outcome.state.lease.holder, kLeader);
        QCOMPARE(outcome.state.lease.epoch, 3U);
        QCOMPARE(homeLine(outcome.state), HomeLine::classRuns);
    }

    void afterARestartTheClassStandsWhereItWouldHaveBeenHeld()
    {
        Class c = withoutLeaderFor(0s);
        // The relay was down for an hour and goes on with the state it had written last.
        const ClassState state = tick(c.script, c.state, c.now + 1h);
        QCOMPARE(state.phase, Phase::calmPause);
        QCOMPARE(state.place, (Place{1, 1, 0, 0}));
    }
};

QTEST_APPLESS_MAIN(TestClassLead)
#include "test_class_lead.moc"
