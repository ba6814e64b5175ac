// Jump, more time, steps left out, corrections: what is planned changes while it is led.
#include "tests/common/live/scripts.h"

#include <QtTest>

using namespace vh;
using namespace vh::testing;
using namespace std::chrono_literals;

namespace
{

Class runningFor(Millis length, const ClassScript& script = smallClass())
{
    Class c;
    c.script = script;
    c.state = openClass(c.script, 1, kLeader, {kStandIn}, c.now);
    (void)c.start();
    c.wait(length);
    return c;
}

/// smallClass with steps of phrases that may go: 1.0 (dearness 2) and 1.1 (dearness 1).
ClassScript lightClass()
{
    ClassScript script = smallClass();
    script.sections[1].steps[0].optionalDearness = 2;
    script.sections[1].steps[1].optionalDearness = 1;
    return script;
}

Command jumpTo(StepAt step)
{
    Command command;
    command.kind = CommandKind::jump;
    command.to = step;
    return command;
}
Command moreBy(Millis more)
{
    Command command;
    command.kind = CommandKind::stretch;
    command.more = more;
    return command;
}
Command leavingOut(LeftOut steps)
{
    Command command;
    command.kind = CommandKind::leaveOut;
    command.leftOut = std::move(steps);
    return command;
}

Outcome revised(const Class& c, const ClassScript& script, Revision revision)
{
    return revise(c.script, script, c.state, revision, c.now);
}
const Revision kFirst{kLeader, 1, 1};

} // namespace

class TestClassChanges : public QObject
{
    Q_OBJECT
private slots:
    void aJumpIsThereFromTheFirstTurnOfTheStep()
    {
        Class c = runningFor(12s);
        QCOMPARE(c.press(jumpTo({2, 0})).refusal, Refusal::none);
        QCOMPARE(c.state.place, (Place{2, 0, 0, 0}));
        QCOMPARE(c.state.turnStartedAt, c.now);
        QCOMPARE(c.state.turnLength, Millis{8s});
        (void)c.press(CommandKind::wait);
        QCOMPARE(c.press(jumpTo({1, 1})).refusal, Refusal::none); // back, and out of a wait
        QCOMPARE(c.state.place, (Place{1, 1, 0, 0}));
        QCOMPARE(c.state.phase, Phase::running);
        QCOMPARE(c.press(jumpTo({1, 2})).refusal, Refusal::noStep);
        QCOMPARE(c.press(jumpTo({7, 0})).refusal, Refusal::noStep);
        QCOMPARE(c.press(CommandKind::jump).refusal, Refusal::noStep);
        QCOMPARE(c.state.place, (Place{1, 1, 0, 0}));
        Class early;
        QCOMPARE(early.press(jumpTo({1, 0})).refusal, Refusal::notNow);
    }

    void aJumpMeansTheSameWhateverTheClockHasDoneAndNeverHappensTwice()
    {
        Class c = runningFor(9s);
        Command jump = jumpTo({2, 0});
        jump.by = kLeader;
        jump.leaseEpoch = 1;
        jump.seenSerial = c.state.serial;
        c.wait(30s); // the clock has moved on, more than a grace ago
        Outcome first = apply(c.script, c.state, jump, c.now);
        QCOMPARE(first.refusal, Refusal::none);
        const Outcome again = apply(c.script, first.state, jump, c.now + 3s);
        QCOMPARE(again.refusal, Refusal::oldPlace);
        QCOMPARE(again.state.turnStartedAt, c.now);
    }

    void pressesForMoreTimeAddUpAndMoveTheEnd()
    {
        Class c = runningFor(12s); // 2 s into a turn of 4 s
        const Instant end = expectedEnd(c.script, c.state, c.now);
        const std::uint32_t turn = c.state.turnSerial;
        for (int i = 0; i < 2; ++i)
            QCOMPARE(c.press(moreBy(10s)).refusal, Refusal::none);
        QCOMPARE(c.state.turnLength, Millis{24s});
        QCOMPARE(c.state.turnSerial, turn);
        QCOMPARE(expectedEnd(c.script, c.state, c.now), end + 20s);
        QCOMPARE(behindPlan(c.script, c.state, c.now), Millis{20s});
        c.wait(21s);
        QCOMPARE(c.state.place, (Place{1, 0, 0, 0}));
        c.wait(1s);
        QCOMPARE(c.state.place, (Place{1, 0, 0, 1}));
        QCOMPARE(c.state.turnLength, Millis{2s}); // of one turn only
    }

    void aHeldClockStaysHeldWhenItsTurnGetsMoreTime()
    {
        Class c = runningFor(12s);
        (void)c.press(CommandKind::wait);
        QCOMPARE(c.press(moreBy(10s)).refusal, Refusal::none);
        QCOMPARE(c.state.phase, Phase::waiting);
        QCOMPARE(c.state.turnSpent, Millis{2s});
        QCOMPARE(c.state.turnLength, Millis{14s});
    }

    void moreTimeForATurnThatHasJustEndedBringsItBackForThatLong()
    {
        Class c = runningFor(13s);
        Command more = moreBy(10s);
        more.by = kLeader;
        more.leaseEpoch = 1;
        more.seenSerial = c.state.serial; // she saw 1.0.0.0, which ends at 14 s
        c.wait(2s);
        const Outcome late = apply(c.script, c.state, more, c.now);
        QCOMPARE(late.refusal, Refusal::none);
        QCOMPARE(late.state.place, (Place{1, 0, 0, 0}));
        QCOMPARE(late.state.turnStartedAt, c.now);
        QCOMPARE(late.state.turnLength, Millis{10s});
        QVERIFY(late.state.turnSerial != more.seenSerial); // its result has gone up already
        c.wait(2s);
        QCOMPARE(apply(c.script, c.state, more, c.now).refusal, Refusal::oldPlace);
    }

    void timeWithoutMeasureIsRefused()
    {
        Class c = runningFor(12s);
        for (const Millis more : {Millis{0}, Millis{-1}, kMostMore + 1ms})
            QCOMPARE(c.press(moreBy(more)).refusal, Refusal::notNow);
        for (int i = 0; i < 5; ++i)
            QCOMPARE(c.press(moreBy(kMostMore)).refusal, Refusal::none);
        QCOMPARE(c.press(moreBy(kMostMore)).refusal, Refusal::notNow); // an hour is the longest
        Class early;
        QCOMPARE(early.press(moreBy(10s)).refusal, Refusal::notNow);
    }

    void whatIsLeftOutIsPassedOverByClockAndPresses()
    {
        Class c = runningFor(5s, lightClass());
        const Instant end = expectedEnd(c.script, c.state, c.now);
        QCOMPARE(c.press(leavingOut({{1, 1}, {1, 0}, {1, 1}})).refusal, Refusal::none);
        QCOMPARE(c.state.leftOut, (LeftOut{{1, 0}, {1, 1}}));
        QCOMPARE(expectedEnd(c.script, c.state, c.now), end - 60s);
        c.wait(5s);
        QCOMPARE(c.state.place, (Place{2, 0, 0, 0}));
        (void)c.press(CommandKind::back);
        QCOMPARE(c.state.place, (Place{0, 0, 0, 0}));
        (void)c.press(CommandKind::skip);
        QCOMPARE(c.state.place, (Place{2, 0, 0, 0}));
    }

    void leavingOutIsUndoneAsLongAsTheStepIsToCome()
    {
        Class c = runningFor(5s, lightClass());
        (void)c.press(leavingOut({{1, 0}, {1, 1}}));
        QCOMPARE(c.press(leavingOut({{1, 0}})).refusal, Refusal::none); // 1.1 is in again
        c.wait(5s);
        QCOMPARE(c.state.place, (Place{1, 1, 0, 0}));
        QCOMPARE(c.press(leavingOut({})).refusal, Refusal::none);
        QCOMPARE(c.state.leftOut, (LeftOut{{1, 0}})); // has been passed
        QVERIFY(!c.press(leavingOut({})).moved);
        QCOMPARE(c.press(jumpTo({1, 0})).refusal, Refusal::none); // and is done after all
        QVERIFY(c.state.leftOut.empty());
    }

    void onlyStepsThatTheScriptLetsGoAndThatAreToComeCanBeLeftOut()
    {
        Class c = runningFor(12s, lightClass());
        QCOMPARE(c.press(leavingOut({{1, 1}, {2, 0}})).refusal, Refusal::noStep);
        QCOMPARE(c.press(leavingOut({{9, 0}})).refusal, Refusal::noStep);
        QCOMPARE(c.press(leavingOut({{1, 0}})).refusal, Refusal::oldPlace); // it is on
        QVERIFY(c.state.leftOut.empty());
    }

    void aPlaceThatARelayHadLostBringsBackWhatWasLeftOut()
    {
        const Class c = runningFor(5s, lightClass());
        const Seen seen{c.state.serial + 3, {1, 0, 0, 0}, {{1, 0}, {1, 1}, {2, 0}, {40, 0}}};
        const Outcome outcome = reassert(c.script, c.state, kLeader, 1, seen, c.now);
        QCOMPARE(outcome.refusal, Refusal::none);
        QCOMPARE(outcome.state.leftOut, (LeftOut{{1, 1}}));
    }

    void aCorrectionGoesOnAtTheSamePlace()
    {
        Class c = runningFor(12s);
        ClassScript corrected = c.script;
        corrected.sections[1].steps[0].text = "Warm rolls, please";
        corrected.sections[1].steps[0].rounds[0].turns[0].planned = 1s; // 2 s of it have gone already
        const Outcome outcome = revised(c, corrected, kFirst);
        QCOMPARE(outcome.refusal, Refusal::none);
        QVERIFY(outcome.moved);
        QCOMPARE(outcome.state.revision, 2U);
        QCOMPARE(outcome.state.serial, c.state.serial + 1);
        QCOMPARE(outcome.state.turnSerial, c.state.turnSerial);
        QCOMPARE(outcome.state.place, c.state.place);
        const ClassState next = tick(corrected, outcome.state, c.now);
        QCOMPARE(next.place, (Place{1, 0, 0, 1}));
        QCOMPARE(next.turnStartedAt, c.now);
    }

    void aCorrectionKeepsTheTimeThatAPressHasGiven()
    {
        Class c = runningFor(12s);
        (void)c.press(moreBy(10s));
        ClassScript corrected = c.script;
        corrected.sections[1].steps[0].rounds[0].turns[0].planned = 6s;
        QCOMPARE(revised(c, corrected, kFirst).state.turnLength, Millis{16s});
    }

    void onlyWhoeverLeadsCorrectsAndOnlyTheNewestScript()
    {
        Class c = runningFor(12s);
        QCOMPARE(revised(c, c.script, {kStandIn, 1, 1}).refusal, Refusal::notLeader);
        QCOMPARE(revised(c, c.script, {kLeader, 2, 1}).refusal, Refusal::oldLease);
        QCOMPARE(revised(c, c.script, {kLeader, 1, 2}).refusal, Refusal::oldScript);
        c.state = revised(c, c.script, kFirst).state;
        QCOMPARE(revised(c, c.script, kFirst).refusal, Refusal::oldScript); // never twice
        (void)c.press(CommandKind::end);
        QCOMPARE(revised(c, c.script, {kLeader, 1, 2}).refusal, Refusal::notNow);
    }

    void aCorrectionLeavesThePastAsItWas_data()
    {
        QTest::addColumn<ClassScript>("script");
        QTest::addColumn<bool>("fits");
        ClassScript script = smallClass();
        script.sections.resize(1);
        QTest::newRow("without the present place") << script << false;
        script = smallClass();
        script.sections[0].steps.push_back(script.sections[0].steps[0]);
        QTest::newRow("one step more before it") << script << false;
        script = smallClass();
        script.sections[0].kind = SectionKind::warmUp;
        QTest::newRow("another kind of section before it") << script << false;
        script = smallClass();
        script.sections[1].steps[0].rounds[0].turns[1].kind = TurnKind::listen;
        QTest::newRow("this turn of another kind") << script << false;
        script = smallClass();
        script.sections[1].steps[0].rounds[0].turns[0].planned = 9s;
        script.sections[0].steps[0].text = "Good evening";
        QTest::newRow("texts and lengths before it") << script << true;
        script = smallClass();
        script.sections[1].steps[0].rounds[0].turns[2].kind = TurnKind::listen;
        script.sections[1].steps.resize(1);
        script.sections.push_back(script.sections[0]);
        QTest::newRow("anything after it") << script << true;
    }
    void aCorrectionLeavesThePastAsItWas()
    {
        QFETCH(ClassScript, script);
        QFETCH(bool, fits);
        const Class c = runningFor(15s); // 1.0.0.1
        const Outcome outcome = revised(c, script, kFirst);
        QCOMPARE(outcome.refusal, fits ? Refusal::none : Refusal::otherPast);
        if (!fits)
            QCOMPARE(outcome.state, c.state);
    }

    void beforeTheClassHasBegunThereIsNoPast()
    {
        Class c;
        ClassScript script = smallClass();
        script.sections[0].steps[0].rounds[0].turns[0] = turn(TurnKind::withMe, 3);
        const Outcome outcome = revised(c, script, kFirst);
        QCOMPARE(outcome.refusal, Refusal::none);
        QCOMPARE(outcome.state.turnLength, Millis{3s});
    }

    void whatWasLeftOutStaysSoAsLongAsTheStepsStandWhereTheyStood()
    {
        Class c = runningFor(5s, lightClass());
        (void)c.press(leavingOut({{1, 0}, {1, 1}}));
        ClassScript corrected = c.script;
        corrected.sections[1].steps[1].text = "Two of these, please";
        QCOMPARE(revised(c, corrected, kFirst).state.leftOut, c.state.leftOut);
        corrected.sections[1].steps[1].optionalDearness.reset();
        QCOMPARE(revised(c, corrected, kFirst).state.leftOut, (LeftOut{{1, 0}}));
        corrected = c.script;
        corrected.sections[1].steps.insert(corrected.sections[1].steps.begin(), optionalStep(5, 1));
        QVERIFY(revised(c, corrected, kFirst).state.leftOut.empty());
    }
};

QTEST_APPLESS_MAIN(TestClassChanges)
#include "test_class_changes.moc"
