// A leader's own pace: robust against one odd class, careful with few, bounded, and said in a sentence.
#include "common/script/own_pace.h"

#include <QtTest>

#include <cmath>

using namespace vh;

namespace
{

PaceSample sampleOf(SectionKind kind, PacePart part, double times)
{
    PaceSample sample;
    sample.add(kind, part, Millis{100'000}, Millis{std::llround(100'000 * times)});
    return sample;
}

OwnPace paceOf(std::initializer_list<double> times, PacePart part = PacePart::shown)
{
    std::vector<PaceSample> classes;
    for (const double each : times)
        classes.push_back(sampleOf(SectionKind::phrases, part, each));
    return OwnPace(classes);
}

double sentences(const OwnPace& pace)
{
    return pace.times(SectionKind::phrases, PacePart::shown);
}

bool near(double one, double other)
{
    return std::abs(one - other) < 1e-9;
}

ClassScript script()
{
    ClassScript script{"A", "B", "en", 1, {}};
    const std::vector<Round> rounds{
        {false,
         {{TurnKind::listen, Millis{10'000}}, {TurnKind::ready, Millis{2'000}}, {TurnKind::yours, Millis{8'000}}}}};
    script.sections = {
        {SectionKind::phrases, "P", {{"One.", {}, {}, "", rounds, {}}}},
        {SectionKind::pause, "W", {{"", {}, {}, "", {{false, {{TurnKind::listen, Millis{20'000}}}}}, {}}}}};
    return script;
}

} // namespace

class TestOwnPace : public QObject
{
    Q_OBJECT
private slots:
    void nothingKnownIsAsPlanned()
    {
        const OwnPace pace;
        QVERIFY(pace.isAsPlanned());
        QVERIFY(OwnPace(std::vector<PaceSample>{}).isAsPlanned());
        QVERIFY(planOf(script(), pace) == planOf(script()));
        QVERIFY(wordsOf(pace).empty());
    }

    void oneClassMovesItHalfwayAndManyNearlyAllTheWay()
    {
        QVERIFY(near(sentences(paceOf({1.2})), 1.1));
        QVERIFY(near(sentences(paceOf({1.2, 1.2, 1.2})), 1.15));
        QVERIFY(near(sentences(paceOf({1.2, 1.2, 1.2, 1.2, 1.2, 1.2, 1.2, 1.2, 1.2})), 1.18));
    }

    void oneOddClassDoesNotMoveIt()
    {
        QVERIFY(near(sentences(paceOf({1.1, 1.1, 3.0, 1.1, 1.1})), sentences(paceOf({1.1, 1.1, 1.1, 1.1, 1.1}))));
    }

    void onlyTheLastTenClassesCount()
    {
        QVERIFY(near(sentences(paceOf({2, 2, 2, 2, 2, 2, 2, 2, 2, 2, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1})), 1.0));
    }

    void itStaysBetweenTwoThirdsAndOneAndAHalf()
    {
        QVERIFY(near(sentences(paceOf({9, 9, 9, 9, 9, 9})), OwnPace::kMostTimes));
        QVERIFY(near(sentences(paceOf({0, 0, 0, 0, 0, 0})), OwnPace::kLeastTimes));
    }

    void tooLittleOfAKindSaysNothing()
    {
        PaceSample sample;
        sample.add(SectionKind::closing, PacePart::shown, Millis{9'999}, Millis{20'000});
        QVERIFY(OwnPace(std::vector{sample}).isAsPlanned());
    }

    void itMovesOnlyItsOwnKindAndPart()
    {
        const OwnPace pace = paceOf({1.2});
        QVERIFY(near(pace.times(SectionKind::phrases, PacePart::spoken), 1));
        QVERIFY(near(pace.times(SectionKind::passage, PacePart::shown), 1));
        QCOMPARE(pace.at(SectionKind::phrases, TurnKind::listen, Millis{10'000}), Millis{11'000});
        QCOMPARE(pace.at(SectionKind::phrases, TurnKind::ready, Millis{2'000}), Millis{2'000});
    }

    void thePlanAtHerPaceHasNoGapsAndTheSumsOfItsParts()
    {
        const TimingPlan plan = planOf(script(), paceOf({1.2}));
        QCOMPARE(plan.total, Millis{41'000});
        QCOMPARE(plan.sectionLengths, (std::vector{Millis{21'000}, Millis{20'000}}));
        Millis at{0};
        for (const PlannedTurn& turn : plan.turns) {
            QCOMPARE(turn.start, at);
            at += turn.length;
        }
        QCOMPARE(at, plan.total);
        QCOMPARE(plan.turns.size(), planOf(script()).turns.size());
    }

    void itExplainsItselfInASentence()
    {
        const auto only = [](const OwnPace& pace) {
            return wordsOf(pace).size() == 1 ? wordsOf(pace)[0] : std::string();
        };
        QCOMPARE(only(paceOf({1.4})), std::string("You take about a fifth longer over sentences than the plan says."));
        QCOMPARE(only(paceOf({0.5})),
                 std::string("You take about a quarter less time over sentences than the plan says."));
        QCOMPARE(only(paceOf({1.2}, PacePart::spoken)),
                 std::string("The people's turns in sentences take about a tenth longer than the plan says."));
        QCOMPARE(only(OwnPace(std::vector{sampleOf(SectionKind::pause, PacePart::shown, 1.2)})),
                 std::string("Your water pauses take about a tenth longer than the plan says."));
        QVERIFY(wordsOf(paceOf({1.1})).empty()); // five in a hundred: nobody notices
    }

    void theLargestDifferenceIsSaidFirst()
    {
        PaceSample sample = sampleOf(SectionKind::phrases, PacePart::shown, 1.2);
        sample.add(SectionKind::passage, PacePart::shown, Millis{100'000}, Millis{160'000});
        const auto words = wordsOf(OwnPace(std::vector{sample}));
        QCOMPARE(words.size(), std::size_t(2));
        QVERIFY(words[0].find("story") != std::string::npos);
    }
};

QTEST_APPLESS_MAIN(TestOwnPace)
#include "test_own_pace.moc"
