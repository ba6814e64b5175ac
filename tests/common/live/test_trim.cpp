#include "common/live/trim.h"
#include "tests/common/live/scripts.h"

#include <QtTest>

#include <algorithm>

using namespace vh;
using namespace vh::testing;
using namespace std::chrono_literals;

namespace
{

/// An opening of 60 s, then steps of these lengths (s) and dearnesses (0: belongs to the class), then 10 s of closing.
ClassScript classOf(const std::vector<std::pair<int, int>>& steps)
{
    ClassScript script = smallClass();
    script.sections[0].steps[0].rounds[0].turns[0].planned = 60s;
    script.sections[1].steps.clear();
    for (const auto& [seconds, dearness] : steps) {
        script.sections[1].steps.push_back(optionalStep(seconds, dearness));
        if (dearness == 0)
            script.sections[1].steps.back().optionalDearness.reset();
    }
    return script;
}

/// In the opening, which has been given so many seconds more than planned.
Class behindBy(const ClassScript& script, int seconds)
{
    Class c;
    c.script = script;
    c.state = openClass(script, 1, kLeader, {}, c.now);
    (void)c.start();
    Command more;
    more.kind = CommandKind::stretch;
    more.more = Millis{seconds * 1000};
    (void)c.press(more);
    return c;
}

Trim trimOf(const Class& c)
{
    return trimToFit(c.script, c.state, c.now);
}

std::vector<StepAt> mayGo(const ClassScript& script, const ClassState& state)
{
    std::vector<StepAt> steps;
    for (auto at = nextStep(script, state.place); at; at = nextStep(script, *at))
        if (turnAt(script, *at)->step->optionalDearness && !isLeftOut(state.leftOut, stepOf(*at)))
            steps.push_back(stepOf(*at));
    return steps;
}

} // namespace

class TestTrim : public QObject
{
    Q_OBJECT
private slots:
    void aClassThatIsOnTimeLosesNothing()
    {
        const Trim trim = trimOf(behindBy(classOf({{40, 1}}), 30));
        QVERIFY(trim.steps.empty() && trim.endsOnTime);
        QCOMPARE(trim.behind, Millis{30s});
        QVERIFY(trimToFit(smallClass(), Class{}.state, kNoon).steps.empty()); // has not begun
    }

    void theProposal_data()
    {
        using Steps = std::vector<std::pair<int, int>>;
        QTest::addColumn<Steps>("script");
        QTest::addColumn<int>("behind");
        QTest::addColumn<std::vector<int>>("steps");
        QTest::addColumn<bool>("fits");
        QTest::newRow("the least dear goes first") << Steps{{40, 2}, {40, 1}} << 60 << std::vector{1} << true;
        QTest::newRow("one long one rather than two")
            << Steps{{20, 1}, {20, 1}, {45, 1}} << 65 << std::vector{2} << true;
        QTest::newRow("no longer than it need be") << Steps{{90, 1}, {45, 1}, {50, 1}} << 70 << std::vector{1} << true;
        QTest::newRow("the later of two alike") << Steps{{45, 1}, {45, 1}} << 60 << std::vector{1} << true;
        QTest::newRow("what a dearer one makes unnecessary stays")
            << Steps{{20, 1}, {60, 2}} << 85 << std::vector{1} << true;
        QTest::newRow("all that may go, and it is not enough")
            << Steps{{20, 1}, {300, 0}, {30, 9}} << 200 << std::vector{0, 2} << false;
        QTest::newRow("nothing may go") << Steps{{20, 0}} << 200 << std::vector<int>{} << false;
    }
    void theProposal()
    {
        using Steps = std::vector<std::pair<int, int>>;
        QFETCH(Steps, script);
        QFETCH(int, behind);
        QFETCH(std::vector<int>, steps);
        QFETCH(bool, fits);
        const Class c = behindBy(classOf(script), behind);
        const Trim trim = trimOf(c);
        std::vector<int> found;
        Millis saved{0};
        for (const StepAt step : trim.steps) {
            found.push_back(step.step);
            saved += plannedLength(*stepAt(c.script, step));
        }
        QCOMPARE(found, steps);
        QCOMPARE(trim.endsOnTime, fits);
        QCOMPARE(trim.saved, saved);
        QCOMPARE(trim.behind, Millis{behind * 1000});
    }

    void whatIsLeftOutAlreadyIsNotProposedAgain()
    {
        Class c = behindBy(classOf({{40, 1}, {40, 2}}), 90);
        Command out;
        out.kind = CommandKind::leaveOut;
        out.leftOut = {{1, 0}};
        (void)c.press(out);
        const Trim trim = trimOf(c);
        QCOMPARE(trim.behind, Millis{50s});
        QCOMPARE(trim.steps, (LeftOut{{1, 1}}));
    }

    void whateverTheClassTheProposalHolds()
    {
        std::mt19937 random(5);
        int fits = 0;
        int falls = 0;
        for (int round = 0; round < 3000 && !QTest::currentTestFailed(); ++round) {
            Class c;
            c.script = randomClass(random);
            c.state = openClass(c.script, 1, kLeader, {}, c.now);
            (void)c.start();
            for (int i = static_cast<int>(random() % 6); i > 0; --i)
                (void)c.press(CommandKind::goOn);
            c.state.startedAt = c.now - Millis{random() % 400'000}; // long ago: behind
            if (c.state.phase == Phase::running)
                holds(c, fits, falls);
        }
        QVERIFY(fits > 100 && falls > 100);
    }

private:
    static void holds(Class& c, int& fits, int& falls)
    {
        const Trim trim = trimOf(c);
        const auto candidates = mayGo(c.script, c.state);
        int dearest = 0;
        for (const StepAt step : trim.steps) {
            QVERIFY(std::ranges::count(candidates, step) == 1); // may go, is to come, still in
            dearest = std::max(dearest, *stepAt(c.script, step)->optionalDearness);
        }
        const Millis need = trim.behind - kOnTime;
        QCOMPARE(trim.endsOnTime, trim.saved >= need);
        Millis allCheaper{0};
        for (const StepAt step : candidates)
            if (*stepAt(c.script, step)->optionalDearness < dearest)
                allCheaper += plannedLength(*stepAt(c.script, step));
        if (trim.endsOnTime && !trim.steps.empty()) {
            ++fits;
            QVERIFY(allCheaper < need); // nothing so dear goes while cheaper ones would do
            for (const StepAt step : trim.steps)
                QVERIFY(trim.saved - plannedLength(*stepAt(c.script, step)) < need); // each is needed
        } else if (!trim.endsOnTime) {
            ++falls;
            QCOMPARE(trim.steps, candidates);
        } else {
            QVERIFY(need <= Millis{0});
        }
        // And done, it is as it was said.
        Command out;
        out.kind = CommandKind::leaveOut;
        out.leftOut = trim.steps;
        QCOMPARE(c.press(out).refusal, Refusal::none);
        QCOMPARE(behindPlan(c.script, c.state, c.now), trim.stillBehind());
    }
};

QTEST_APPLESS_MAIN(TestTrim)
#include "test_trim.moc"
