#include "common/script/plan.h"
#include "random_script.h"

#include <QtTest>
#include <numeric>

using namespace vh;

class TestPlan : public QObject
{
    Q_OBJECT
private slots:
    void startsAreTheSumsOfWhatCameBefore()
    {
        const auto turn = [](int millis) { return Turn{TurnKind::yours, Millis{millis}}; };
        const Step one{"a", {}, {}, "", {{false, {turn(1000), turn(2500)}}, {true, {turn(500)}}}, {}};
        const Step two{"b", {}, {}, "", {{false, {turn(4000)}}}, 2};
        const ClassScript script{
            "t", "t", "en", 1, {{SectionKind::opening, "a", {one, two}}, {SectionKind::closing, "b", {two}}}};
        const TimingPlan plan = planOf(script);
        const std::vector<PlannedTurn> expected{{{0, 0, 0, 0}, Millis{0}, Millis{1000}},
                                                {{0, 0, 0, 1}, Millis{1000}, Millis{2500}},
                                                {{0, 0, 1, 0}, Millis{3500}, Millis{500}},
                                                {{0, 1, 0, 0}, Millis{4000}, Millis{4000}},
                                                {{1, 0, 0, 0}, Millis{8000}, Millis{4000}}};
        QVERIFY(plan.turns == expected);
        QCOMPARE(plan.total, Millis{12'000});
        QVERIFY(plan.sectionLengths == (std::vector<Millis>{Millis{8000}, Millis{4000}}));
        QCOMPARE(plan.startOf({0, 1, 0, 0}), Millis{4000});
        QCOMPARE(plan.startOf({0, 1, 0, 1}), std::nullopt);
        QCOMPARE(plan.startOf({2, 0, 0, 0}), std::nullopt);
        QVERIFY(plan.turnAt(Millis{0})->index == (TurnIndex{0, 0, 0, 0}));
        QVERIFY(plan.turnAt(Millis{3499})->index == (TurnIndex{0, 0, 0, 1}));
        QVERIFY(plan.turnAt(Millis{3500})->index == (TurnIndex{0, 0, 1, 0}));
        QVERIFY(plan.turnAt(Millis{11'999})->index == (TurnIndex{1, 0, 0, 0}));
        QVERIFY(plan.turnAt(Millis{-1}) == nullptr);
        QVERIFY(plan.turnAt(Millis{12'000}) == nullptr);
    }

    void anyPlanIsWithoutGapsAndFindsItsTurns()
    {
        for (std::uint64_t seed = 1; seed <= 200; ++seed) {
            const TimingPlan plan = planOf(randomScript(seed));
            Millis at{0};
            for (const PlannedTurn& turn : plan.turns) {
                QCOMPARE(turn.start, at);
                QCOMPARE(plan.startOf(turn.index), at);
                QVERIFY(plan.turnAt(at) == &turn);
                at += turn.length;
                QVERIFY(plan.turnAt(at - Millis{1}) == &turn);
            }
            QCOMPARE(plan.total, at);
            QCOMPARE(std::accumulate(plan.sectionLengths.begin(), plan.sectionLengths.end(), Millis{0}), at);
        }
    }

    void anEmptyPlanHasNothing()
    {
        const TimingPlan plan = planOf({});
        QCOMPARE(plan.total, Millis{0});
        QVERIFY(plan.turnAt(Millis{0}) == nullptr);
    }
};

QTEST_APPLESS_MAIN(TestPlan)
#include "test_plan.moc"
