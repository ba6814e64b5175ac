// From the places of a class that was led to how long its parts took: what counts for the leader's pace, and what does
// not.
#include "common/live/class_lead.h"
#include "common/live/class_moves.h"
#include "common/live/pace_trace.h"

#include <QtTest>

using namespace vh;

namespace
{

constexpr Millis seconds(int count)
{
    return Millis{1000 * count};
}

/// A phrase of two rounds (10, 2, 8 and 2, 8 s), two of them; a pause of 70 s; a closing of 30 s; 160 s.
ClassScript script()
{
    const std::vector<Round> twice{
        {false, {{TurnKind::listen, seconds(10)}, {TurnKind::ready, seconds(2)}, {TurnKind::yours, seconds(8)}}},
        {true, {{TurnKind::ready, seconds(2)}, {TurnKind::yours, seconds(8)}}}};
    ClassScript made{"A", "B", "en", 2, {}};
    made.sections = {
        {SectionKind::phrases, "P", {{"One.", {}, {}, "", twice, {}}, {"Two.", {}, {}, "", twice, {}}}},
        {SectionKind::pause, "W", {{"", {}, {}, "", {{false, {{TurnKind::listen, seconds(70)}}}}, {}}}},
        {SectionKind::closing, "C", {{"Bye.", {}, {}, "", {{false, {{TurnKind::listen, seconds(30)}}}}, {}}}}};
    return made;
}

/// Led through the state machine of the halls.
class LedClass
{
public:
    explicit LedClass(ClassScript led = script()) : m_script(std::move(led))
    {
        m_state = openClass(m_script, 1, m_who, {}, m_now);
        press(CommandKind::start);
    }
    LedClass& press(CommandKind kind)
    {
        m_state = apply(m_script, m_state, {kind, m_who, m_state.lease.epoch, m_state.serial}, m_now).state;
        see();
        return *this;
    }
    LedClass& pass(Millis time)
    {
        for (Millis gone{0}; gone < time; gone += Millis{100}) {
            m_now += Millis{100};
            m_state = leaderSeen(m_script, m_state, m_who, m_now);
            see();
        }
        return *this;
    }
    /// The line is lost: no sign of life.
    LedClass& passAlone(Millis time)
    {
        for (Millis gone{0}; gone < time; gone += Millis{100}) {
            m_now += Millis{100};
            m_state = tick(m_script, m_state, m_now);
            see();
        }
        return *this;
    }
    LedClass& toTheEnd()
    {
        while (m_state.phase != Phase::ended)
            pass(Millis{100});
        return *this;
    }
    [[nodiscard]] PaceSample pace(Led led = Led::inClass) const { return paceOf(m_script, m_trace, led); }
    [[nodiscard]] PaceSample::Time shown(SectionKind kind) const { return pace().of(kind, PacePart::shown); }
    [[nodiscard]] PaceSample::Time spoken(SectionKind kind) const { return pace().of(kind, PacePart::spoken); }
    [[nodiscard]] const ClassTrace& trace() const { return m_trace; }

private:
    void see() { note(m_trace, {m_now, m_state.phase, m_state.place}); }
    ClassScript m_script;
    Instant m_now{Millis{1'700'000'000'000}};
    PersonId m_who;
    ClassState m_state;
    ClassTrace m_trace;
};

using Time = PaceSample::Time;

} // namespace

class TestPaceTrace : public QObject
{
    Q_OBJECT
private slots:
    void leftToTheClockEverythingTakesItsPlannedTime()
    {
        const LedClass led = LedClass().toTheEnd();
        QVERIFY((led.shown(SectionKind::phrases) == Time{seconds(20), seconds(20)}));
        QVERIFY((led.spoken(SectionKind::phrases) == Time{seconds(40), seconds(40)}));
        QVERIFY((led.shown(SectionKind::pause) == Time{seconds(70), seconds(70)}));
        QVERIFY((led.shown(SectionKind::closing) == Time{seconds(30), seconds(30)}));
        QVERIFY(OwnPace(std::vector{led.pace()}).isAsPlanned());
    }

    void timeHeldIsTimeTaken()
    {
        const LedClass led =
            LedClass().pass(seconds(9)).press(CommandKind::wait).pass(seconds(4)).press(CommandKind::resume).toTheEnd();
        QVERIFY((led.shown(SectionKind::phrases) == Time{seconds(20), seconds(24)}));
    }

    void goingOnInTheLastTurnOfARoundIsAShorterTurn()
    {
        const LedClass led = LedClass().pass(seconds(17)).press(CommandKind::goOn).toTheEnd(); // 5 of 8 s
        QVERIFY((led.spoken(SectionKind::phrases) == Time{seconds(40), seconds(37)}));
    }

    void onceMoreIsAPartOfTheStep()
    {
        const LedClass led = LedClass().pass(seconds(15)).press(CommandKind::onceMore).toTheEnd();
        QVERIFY((led.shown(SectionKind::phrases) == Time{seconds(20), seconds(30)}));
        QVERIFY((led.spoken(SectionKind::phrases) == Time{seconds(40), seconds(45)}));
    }

    void aStepThatWasSkippedOrCutShortDoesNotCount()
    {
        const Time oneStep{seconds(10), seconds(10)};
        QVERIFY(LedClass().pass(seconds(5)).press(CommandKind::skip).toTheEnd().shown(SectionKind::phrases) == oneStep);
        // Gone on while she showed: the people's turn was left out.
        QVERIFY(LedClass().pass(seconds(5)).press(CommandKind::goOn).toTheEnd().shown(SectionKind::phrases) == oneStep);
        // Back into a step that was half over: only the one after it was gone through.
        const LedClass back = LedClass().pass(seconds(31)).press(CommandKind::back).toTheEnd();
        QVERIFY((back.shown(SectionKind::phrases) == Time{seconds(20), seconds(20)}));
    }

    void aClassThatWasEndedEarlyCountsForWhatWasDone()
    {
        const LedClass led = LedClass().pass(seconds(115)).press(CommandKind::end);
        QVERIFY(led.pace().empty()); // the minute of phrases is too little
        const LedClass enough = LedClass().pass(seconds(145)).press(CommandKind::end);
        QVERIFY((enough.shown(SectionKind::phrases) == Time{seconds(20), seconds(20)}));
        // To end it in its last turn is to go on.
        QVERIFY((enough.shown(SectionKind::closing) == Time{seconds(30), seconds(15)}));
    }

    void aCalmPauseIsNobodysPace()
    {
        const LedClass led = LedClass().pass(seconds(5)).passAlone(seconds(300)).press(CommandKind::resume).toTheEnd();
        QVERIFY(led.shown(SectionKind::phrases).planned > Millis{0});
        const Time all = led.pace().sum();
        QVERIFY(all.actual - all.planned < seconds(5));
    }

    void anInterruptionIsNotTakenForAPace()
    {
        const LedClass led = LedClass()
                                 .pass(seconds(5))
                                 .press(CommandKind::wait)
                                 .pass(seconds(600))
                                 .press(CommandKind::resume)
                                 .toTheEnd();
        QVERIFY((led.shown(SectionKind::phrases) == Time{seconds(20), seconds(10 + 2 * 10 + 4)}));
    }

    void aClassThatWasLeafedThroughTeachesNothing()
    {
        LedClass led;
        for (int press = 0; press < 12; ++press)
            led.pass(seconds(2)).press(CommandKind::goOn);
        led.press(CommandKind::end);
        QVERIFY(led.pace().empty());
    }

    void aloneOnlyWhatSheShowsCounts()
    {
        const PaceSample alone = LedClass().toTheEnd().pace(Led::rehearsal);
        // 20 s of sentences and 30 s of the closing are too little to tell anything.
        QVERIFY(alone.empty());
        ClassScript longer = script();
        longer.sections[2].steps[0].rounds[0].turns[0].planned = seconds(100);
        const PaceSample enough = LedClass(longer).toTheEnd().pace(Led::rehearsal);
        QVERIFY((enough.of(SectionKind::phrases, PacePart::shown) == Time{seconds(20), seconds(20)}));
        QVERIFY((enough.of(SectionKind::phrases, PacePart::spoken) == Time{}));
        QVERIFY((enough.of(SectionKind::pause, PacePart::shown) == Time{}));
    }

    void placesOutsideTheScriptAreLeftAlone()
    {
        ClassTrace trace = LedClass().toTheEnd().trace();
        trace.insert(trace.begin() + 2, {trace[1].at, Phase::running, Place{9, 9, 9, 9}});
        (void)paceOf(script(), trace, Led::inClass);
        QCOMPARE(sectionTimes(script(), trace).size(), std::size_t(3));
        QVERIFY(paceOf(script(), {}, Led::inClass).empty());
    }

    void eachSectionHasItsTimesAndHowMuchOfItWasSeen()
    {
        const LedClass led = LedClass()
                                 .pass(seconds(5))
                                 .press(CommandKind::wait)
                                 .pass(seconds(3))
                                 .press(CommandKind::resume)
                                 .press(CommandKind::skip)
                                 .pass(seconds(31))
                                 .press(CommandKind::skip)
                                 .pass(seconds(2))
                                 .press(CommandKind::end);
        const auto times = sectionTimes(script(), led.trace());
        QCOMPARE(times.size(), std::size_t(3));
        QCOMPARE(times[0].planned, seconds(60));
        QCOMPARE(times[0].actual, seconds(38));
        QCOMPARE(times[0].stepsSeen, std::size_t(2));
        QCOMPARE(times[1].actual, seconds(1));
        QCOMPARE(times[2].actual, seconds(2));
        QCOMPARE(times[2].steps, std::size_t(1));
    }
};

QTEST_APPLESS_MAIN(TestPaceTrace)
#include "test_pace_trace.moc"
