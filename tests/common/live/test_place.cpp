#include "tests/common/live/scripts.h"

#include <QtTest>

#include <algorithm>
#include <vector>

using namespace vh;
using namespace vh::testing;

class TestPlace : public QObject
{
    Q_OBJECT
private slots:
    void turnsFollowEachOtherAcrossRoundsStepsAndSections()
    {
        const ClassScript script = smallClass();
        std::vector<Place> all;
        for (std::optional<Place> at = Place{}; at; at = nextTurn(script, *at))
            all.push_back(*at);
        QCOMPARE(all.size(), std::size_t(1 + 4 * 4 + 1));
        QVERIFY(std::is_sorted(all.begin(), all.end()));
        QCOMPARE(all[1], (Place{1, 0, 0, 0}));
        QCOMPARE(all[5], (Place{1, 0, 1, 0}));
        QCOMPARE(all[9], (Place{1, 1, 0, 0}));
        QCOMPARE(all.back(), (Place{2, 0, 0, 0}));
    }

    void backwardsIsTheSameWayBack()
    {
        std::mt19937 random(3);
        for (int i = 0; i < 50; ++i) {
            const ClassScript script = randomClass(random);
            QVERIFY(!previousTurn(script, Place{}));
            QVERIFY(!previousRound(script, Place{}));
            Place at;
            while (const auto next = nextTurn(script, at)) {
                QCOMPARE(*previousTurn(script, *next), at);
                at = *next;
            }
            at = Place{};
            while (const auto next = nextRound(script, at)) {
                QCOMPARE(*previousRound(script, *next), at);
                at = *next;
            }
        }
    }

    void roundsAndStepsAreLeftFromAnyTurn()
    {
        const ClassScript script = smallClass();
        QCOMPARE(*nextRound(script, Place{1, 0, 0, 2}), (Place{1, 0, 1, 0}));
        QCOMPARE(*nextRound(script, Place{1, 0, 1, 3}), (Place{1, 1, 0, 0}));
        QCOMPARE(*nextStep(script, Place{1, 0, 0, 1}), (Place{1, 1, 0, 0}));
        QCOMPARE(*nextStep(script, Place{1, 1, 0, 1}), (Place{2, 0, 0, 0}));
        QCOMPARE(*previousRound(script, Place{2, 0, 0, 0}), (Place{1, 1, 1, 0}));
        QVERIFY(!nextStep(script, Place{2, 0, 0, 0}));
        QVERIFY(!nextRound(script, Place{2, 0, 0, 0}));
    }

    void theWayLeadsOverStepsThatAreLeftOut()
    {
        const ClassScript script = smallClass();
        const LeftOut leftOut{{1, 0}};
        QCOMPARE(*nextTurn(script, Place{0, 0, 0, 0}, leftOut), (Place{1, 1, 0, 0}));
        QCOMPARE(*nextStep(script, Place{0, 0, 0, 0}, leftOut), (Place{1, 1, 0, 0}));
        QCOMPARE(*previousTurn(script, Place{1, 1, 0, 0}, leftOut), (Place{0, 0, 0, 0}));
        QCOMPARE(*previousRound(script, Place{1, 1, 0, 2}, leftOut), (Place{0, 0, 0, 0}));
        QCOMPARE(plannedLength(script, leftOut), Millis{48'000});
        // From inside one the way leads out of it.
        QCOMPARE(*nextTurn(script, Place{1, 0, 0, 0}, leftOut), (Place{1, 1, 0, 0}));
        QCOMPARE(*previousTurn(script, Place{1, 0, 1, 2}, leftOut), (Place{0, 0, 0, 0}));
        QCOMPARE(plannedFrom(script, Place{1, 0, 0, 0}, leftOut), Millis{38'000});
        const LeftOut both{{1, 0}, {1, 1}, {2, 0}};
        QVERIFY(!nextTurn(script, Place{0, 0, 0, 0}, both));
        QVERIFY(!previousRound(script, Place{1, 1, 0, 0}, LeftOut{{0, 0}, {1, 0}}));
    }

    void aPlaceShowsWhatIsThere()
    {
        const ClassScript script = smallClass();
        const auto here = turnAt(script, Place{1, 0, 1, 3});
        QVERIFY(here);
        QCOMPARE(here->section->kind, SectionKind::phrases);
        QCOMPARE(here->turn->kind, TurnKind::yours);
        QCOMPARE(here->round, &script.sections[1].steps[0].rounds[1]);
    }

    void outsideTheScriptThereIsNothing_data()
    {
        QTest::addColumn<int>("section");
        QTest::addColumn<int>("step");
        QTest::addColumn<int>("round");
        QTest::addColumn<int>("turn");
        QTest::newRow("no such section") << 3 << 0 << 0 << 0;
        QTest::newRow("no such step") << 1 << 2 << 0 << 0;
        QTest::newRow("no such round") << 1 << 0 << 2 << 0;
        QTest::newRow("no such turn") << 1 << 0 << 0 << 4;
        QTest::newRow("the furthest") << 65535 << 65535 << 65535 << 65535;
    }
    void outsideTheScriptThereIsNothing()
    {
        QFETCH(int, section);
        QFETCH(int, step);
        QFETCH(int, round);
        QFETCH(int, turn);
        const auto u16 = [](int value) { return static_cast<std::uint16_t>(value); };
        const Place place{u16(section), u16(step), u16(round), u16(turn)};
        const ClassScript script = smallClass();
        QVERIFY(!turnAt(script, place));
        QVERIFY(!nextStep(script, place));
        QVERIFY(!previousTurn(script, place));
        QVERIFY(!previousRound(script, place));
        QCOMPARE(plannedFrom(script, place), Millis{0});
        QVERIFY(!turnAt(ClassScript{}, Place{}));
        QCOMPARE(plannedLength(ClassScript{}), Millis{0});
    }

    void plannedLengthIsTheSumOfTheTurns()
    {
        const ClassScript script = smallClass();
        QCOMPARE(plannedLength(script), Millis{78'000});
        QCOMPARE(plannedFrom(script, Place{1, 1, 1, 3}), Millis{13'000});
        QCOMPARE(plannedFrom(script, Place{2, 0, 0, 0}), Millis{8'000});
    }
};

QTEST_APPLESS_MAIN(TestPlace)
#include "test_place.moc"
