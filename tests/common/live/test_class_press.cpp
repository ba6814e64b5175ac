#include "tests/common/live/scripts.h"

#include <QtTest>

using namespace vh;
using namespace vh::testing;
using namespace std::chrono_literals;

Q_DECLARE_METATYPE(vh::CommandKind)
Q_DECLARE_METATYPE(vh::Refusal)

namespace
{

/// A class that has run for so long.
Class runningFor(Millis length)
{
    Class c;
    (void)c.start();
    c.wait(length);
    return c;
}

} // namespace

class TestClassPress : public QObject
{
    Q_OBJECT
private slots:
    void aReassertedPlaceIsTakenWithinReasonOnly()
    {
        const Class c = runningFor(Millis{0});
        const auto seen = [&](std::uint32_t serial) {
            return reassert(c.script, c.state, kLeader, c.state.lease.epoch, {serial, {1, 0, 0, 0}}, c.now);
        };
        QCOMPARE(seen(c.state.serial).refusal, Refusal::oldPlace);
        QCOMPARE(seen(c.state.serial + kMostSerialsLost).refusal, Refusal::none);
        QCOMPARE(seen(c.state.serial + kMostSerialsLost).state.serial, c.state.serial + kMostSerialsLost + 1);
        QCOMPARE(seen(c.state.serial + kMostSerialsLost + 1).refusal, Refusal::oldPlace);
        QCOMPARE(seen(0xFFFF'FFFF).refusal, Refusal::oldPlace);
    }

    void aPressGoesWhereTheLeaderExpects_data()
    {
        QTest::addColumn<int>("seconds");
        QTest::addColumn<CommandKind>("kind");
        QTest::addColumn<Place>("place");
        QTest::addColumn<Refusal>("refusal");
        const auto row = [](const char* name, int seconds, CommandKind kind, Place place,
                            Refusal refusal = Refusal::none) {
            QTest::newRow(name) << seconds << kind << place << refusal;
        };
        using enum CommandKind;
        row("go on leaves the rest of the round", 15, goOn, {1, 0, 1, 0});
        row("go on leaves the step after its last round", 27, goOn, {1, 1, 0, 0});
        row("go on enters the next section", 1, goOn, {1, 0, 0, 0});
        row("go on at the last round: the clock ends the class", 72, goOn, {2, 0, 0, 0}, Refusal::notNow);
        row("once more is this round from its start", 23, onceMore, {1, 0, 0, 0});
        row("back is the round before, however far into this one", 38, back, {1, 0, 0, 0});
        row("back goes into the section before", 12, back, {0, 0, 0, 0});
        row("back at the first round is its start", 5, back, {0, 0, 0, 0});
        row("skip leaves the rest of the step", 12, skip, {1, 1, 0, 0});
        row("skip in the last step has nowhere to go", 72, skip, {2, 0, 0, 0}, Refusal::notNow);
        row("start is for classes that have not started", 5, start, {0, 0, 0, 0}, Refusal::notNow);
        row("resume is for held clocks", 5, resume, {0, 0, 0, 0}, Refusal::notNow);
    }
    void aPressGoesWhereTheLeaderExpects()
    {
        QFETCH(int, seconds);
        QFETCH(CommandKind, kind);
        QFETCH(Place, place);
        QFETCH(Refusal, refusal);
        Class c = runningFor(std::chrono::seconds(seconds));
        const ClassState before = c.state;
        const Outcome outcome = c.press(kind);
        QCOMPARE(outcome.refusal, refusal);
        QCOMPARE(c.state.place, place);
        QCOMPARE(outcome.moved, refusal == Refusal::none);
        if (refusal != Refusal::none) {
            QCOMPARE(c.state, before);
            return;
        }
        QCOMPARE(c.state.phase, Phase::running);
        QCOMPARE(c.state.turnStartedAt, c.now);
        QCOMPARE(c.state.serial, before.serial + 1);
        QCOMPARE(c.state.turnSerial, c.state.serial);
    }

    void beforeTheStartOnlyStartAndEndMakeSense()
    {
        using enum CommandKind;
        for (const auto kind : {goOn, back, onceMore, wait, resume, skip})
            QCOMPARE(Class{}.press(kind).refusal, Refusal::notNow);
        QCOMPARE(Class{}.press(end).refusal, Refusal::none);
        QCOMPARE(Class{}.start(), Refusal::none);
    }

    void anEndedClassStaysEnded()
    {
        Class c = runningFor(5s);
        (void)c.press(CommandKind::end);
        const ClassState ended = c.state;
        using enum CommandKind;
        for (const auto kind : {start, goOn, back, onceMore, wait, resume, skip, end}) {
            QCOMPARE(c.press(kind).refusal, Refusal::notNow);
            QCOMPARE(c.state, ended);
        }
        c.wait(10min);
        QCOMPARE(c.state, ended);
    }

    void waitHoldsTheClockAndResumeLetsItRunOn()
    {
        Class c = runningFor(12s); // 2 s into a turn of 4 s
        const std::uint32_t turnId = c.state.turnSerial;
        QCOMPARE(c.press(CommandKind::wait).refusal, Refusal::none);
        QCOMPARE(c.state.phase, Phase::waiting);
        QCOMPARE(homeLine(c.state), HomeLine::classWaits);
        c.wait(5min);
        QCOMPARE(c.state.place, (Place{1, 0, 0, 0}));
        QCOMPARE(turnSpent(c.state, c.now), Millis{2000});
        QCOMPARE(c.press(CommandKind::wait).refusal, Refusal::notNow);
        QCOMPARE(c.press(CommandKind::resume).refusal, Refusal::none);
        QCOMPARE(c.state.turnSerial, turnId); // the same turn, not a new one
        QCOMPARE(c.state.turnStartedAt, c.now - 2s);
        c.wait(1999ms);
        QCOMPARE(c.state.place, (Place{1, 0, 0, 0}));
        c.wait(1ms);
        QCOMPARE(c.state.place, (Place{1, 0, 0, 1}));
    }

    void aMoveLetsTheClockRun()
    {
        using enum CommandKind;
        for (const auto kind : {goOn, back, onceMore, skip}) {
            Class c = runningFor(12s);
            (void)c.press(wait);
            QCOMPARE(c.press(kind).refusal, Refusal::none);
            QCOMPARE(c.state.phase, Phase::running);
        }
    }

    void aResentPressMovesOnce_data()
    {
        QTest::addColumn<CommandKind>("kind");
        using enum CommandKind;
        QTest::newRow("go on") << goOn;
        QTest::newRow("back") << back;
        QTest::newRow("once more") << onceMore;
        QTest::newRow("skip") << skip;
        QTest::newRow("wait") << wait;
        QTest::newRow("end") << end;
    }
    void aResentPressMovesOnce()
    {
        QFETCH(CommandKind, kind);
        Class c = runningFor(12s);
        const std::uint32_t seen = c.state.serial;
        QCOMPARE(c.press(kind, seen).refusal, Refusal::none);
        const ClassState after = c.state;
        QCOMPARE(c.press(kind, seen).refusal, Refusal::oldPlace);
        QCOMPARE(c.state, after);
    }

    // The clock moves on by itself at 25 s from round 1.0.0 (seen) to 1.0.1; the press arrives shortly after.
    void aPressThatRacesTheClockMeansTheRoundThatWasSeen_data()
    {
        QTest::addColumn<CommandKind>("kind");
        QTest::addColumn<int>("lateMs");
        QTest::addColumn<Refusal>("refusal");
        QTest::addColumn<bool>("moved");
        QTest::addColumn<Place>("place");
        using enum CommandKind;
        const auto row = [](const char* name, CommandKind kind, int lateMs, Refusal refusal, bool moved, Place place) {
            QTest::newRow(name) << kind << lateMs << refusal << moved << place;
        };
        row("go on has happened already", goOn, 50, Refusal::none, false, {1, 0, 1, 0});
        row("go on has happened, at the edge of grace", goOn, 2000, Refusal::none, false, {1, 0, 1, 0});
        row("go on comes too late", goOn, 2001, Refusal::oldPlace, false, {1, 0, 1, 0});
        row("once more returns to the round that was seen", onceMore, 50, Refusal::none, true, {1, 0, 0, 0});
        row("once more comes too late", onceMore, 2001, Refusal::oldPlace, false, {1, 0, 1, 0});
        row("back is the one before that", back, 50, Refusal::none, true, {0, 0, 0, 0});
        row("back comes too late", back, 2001, Refusal::oldPlace, false, {1, 0, 1, 0});
        row("skip is about the step, which is still here", skip, 3000, Refusal::none, true, {1, 1, 0, 0});
        row("wait holds wherever the class is", wait, 3000, Refusal::none, true, {1, 0, 1, 0});
        row("end ends", end, 3000, Refusal::none, true, {1, 0, 1, 0});
    }
    void aPressThatRacesTheClockMeansTheRoundThatWasSeen()
    {
        QFETCH(CommandKind, kind);
        QFETCH(int, lateMs);
        QFETCH(Refusal, refusal);
        QFETCH(bool, moved);
        QFETCH(Place, place);
        Class c = runningFor(24s);
        const std::uint32_t seen = c.state.serial;
        c.now += 1s + Millis{lateMs};
        const Outcome outcome = c.press(kind, seen);
        QCOMPARE(outcome.refusal, refusal);
        QCOMPARE(outcome.moved, moved);
        QCOMPARE(c.state.place, place);
    }

    void withinTheRoundAPressIsNeverTooLate()
    {
        Class c = runningFor(10s); // the first turn of 1.0.0
        const std::uint32_t seen = c.state.serial;
        c.wait(14s); // its last turn, 14 s later
        QCOMPARE(c.press(CommandKind::goOn, seen).refusal, Refusal::none);
        QCOMPARE(c.state.place, (Place{1, 0, 1, 0}));
    }

    void skipThatRacesTheClockIntoTheNextStepHasHappened()
    {
        Class c = runningFor(39s); // 1.0.1, whose step is over at 40 s
        const std::uint32_t seen = c.state.serial;
        c.wait(2s);
        const Outcome outcome = c.press(CommandKind::skip, seen);
        QCOMPARE(outcome.refusal, Refusal::none);
        QVERIFY(!outcome.moved);
        QCOMPARE(c.state.place, (Place{1, 1, 0, 0}));
    }

    // Rounds so short that several went by: one press still never moves the class further than it meant.
    void goOnNeverSkipsARoundThatBeganByItself()
    {
        Class c;
        c.script.sections = {Section{SectionKind::counting,
                                     "Count",
                                     {stepOf(std::vector<Round>(9, Round{false, {Turn{TurnKind::yours, 300ms}}}))}}};
        c.state = openClass(c.script, 1, kLeader, {}, c.now);
        (void)c.start();
        c.now += 1000ms; // in round 3; she saw round 0
        const Outcome outcome = c.press(CommandKind::goOn, 1);
        QCOMPARE(outcome.refusal, Refusal::none);
        QVERIFY(!outcome.moved);
        QCOMPARE(c.state.place, (Place{0, 0, 3, 0}));
        QCOMPARE(c.press(CommandKind::onceMore, 1).refusal, Refusal::none);
        QCOMPARE(c.state.place, (Place{0, 0, 0, 0}));
    }

    void aPressFromBeforeAnotherPressIsOld()
    {
        Class c = runningFor(12s);
        const std::uint32_t seen = c.state.serial;
        (void)c.press(CommandKind::wait);
        QCOMPARE(c.press(CommandKind::goOn, seen).refusal, Refusal::oldPlace);
        QCOMPARE(c.press(CommandKind::goOn, c.state.serial + 1).refusal, Refusal::oldPlace); // never seen by anybody
        QCOMPARE(c.state.place, (Place{1, 0, 0, 0}));
    }

    void onlyTheHolderOfTheNewestLeaseIsHeard()
    {
        Class c = runningFor(12s);
        const ClassState before = c.state;
        const auto as = [&](PersonId who, std::uint32_t epoch) {
            return apply(c.script, c.state, Command{CommandKind::goOn, who, epoch, c.state.serial}, c.now);
        };
        QCOMPARE(as(kSomebody, 1).refusal, Refusal::notLeader);
        QCOMPARE(as(kStandIn, 1).refusal, Refusal::notLeader);
        QCOMPARE(as(kLeader, 0).refusal, Refusal::oldLease);
        QCOMPARE(as(kLeader, 2).refusal, Refusal::oldLease);
        QCOMPARE(as(kLeader, 2).state, before);
        QCOMPARE(as(kLeader, 1).refusal, Refusal::none);
    }
};

QTEST_APPLESS_MAIN(TestClassPress)
#include "test_class_press.moc"
