#include "common/measure/usual_level.h"

#include <QtTest>

#include <random>
#include <utility>
#include <vector>

using namespace vh;
using namespace std::chrono_literals;

namespace
{

constexpr Instant kFirstDay{Millis{1'700'000'000'000}};

Instant day(int number)
{
    return kFirstDay + std::chrono::hours(24) * number;
}

/// A usual level found in the first week: one value a day, all the same.
UsualLevel found(float dbfsA)
{
    UsualLevel usual;
    for (int i = 0; i < 7; ++i)
        usual = withValue(usual, dbfsA, day(i));
    return usual;
}

} // namespace

class TestUsualLevel : public QObject
{
    Q_OBJECT
private slots:
    void theFirstValueIsTheUsualLevelUntilThereAreMore()
    {
        UsualLevel usual;
        QVERIFY(!usual.inForce());
        usual = withValue(usual, -41, day(0));
        QCOMPARE(*usual.inForce(), -41.0F);
        QVERIFY(!usual.startingLevelDbfsA);
    }

    void inTheFirstWeekItIsTheMedian()
    {
        UsualLevel usual;
        usual = withValue(usual, -44, day(0));
        usual = withValue(usual, -40, day(1));
        QCOMPARE(*usual.inForce(), -42.0F); // of two: the middle
        usual = withValue(usual, -20, day(2));
        QCOMPARE(*usual.inForce(), -40.0F); // one odd value does not pull it
    }

    void onlyTheLastSevenCount()
    {
        UsualLevel usual;
        for (int i = 0; i < 10; ++i)
            usual = withValue(usual, static_cast<float>(-50 + i), day(0) + std::chrono::hours(i));
        QCOMPARE(*usual.inForce(), -44.0F); // the median of -47 ... -41
        QCOMPARE(usual.valueCount, std::uint8_t{7});
    }

    void theUsualOfTheFirstWeekIsTheStartingLevelForGood()
    {
        UsualLevel usual = found(-40);
        QVERIFY(!usual.startingLevelDbfsA);
        for (int i = 7; i < 60; ++i)
            usual = withValue(usual, -30, day(i));
        QCOMPARE(*usual.startingLevelDbfsA, -40.0F);
        QVERIFY(*usual.inForce() > -40.0F);
    }

    void itMovesOneDecibelAWeekAtMost_data()
    {
        QTest::addColumn<float>("value");
        QTest::addColumn<int>("lastDay");
        QTest::addColumn<float>("level");
        QTest::newRow("not in the week after the first") << -30.0F << 13 << -40.0F;
        QTest::newRow("louder: one up when that week is over") << -30.0F << 14 << -39.0F;
        QTest::newRow("and not again for a week") << -30.0F << 20 << -39.0F;
        QTest::newRow("two up a week later") << -30.0F << 21 << -38.0F;
        QTest::newRow("quieter: one down") << -50.0F << 14 << -41.0F;
        QTest::newRow("a small change is taken whole") << -39.5F << 14 << -39.5F;
    }
    void itMovesOneDecibelAWeekAtMost()
    {
        QFETCH(float, value);
        QFETCH(int, lastDay);
        QFETCH(float, level);
        UsualLevel usual = found(-40);
        for (int i = 7; i <= lastDay; ++i)
            usual = withValue(usual, value, day(i));
        QCOMPARE(*usual.inForce(), level);
    }

    void inNoSevenDaysAfterTheFirstWeekDoesItMoveFurther()
    {
        std::mt19937 random(11);
        std::uniform_real_distribution<float> level(-60, -20);
        std::uniform_int_distribution<int> hours(1, 60);
        UsualLevel usual;
        std::vector<std::pair<Instant, float>> history;
        Instant at = day(0);
        for (int i = 0; i < 500; ++i) {
            usual = withValue(usual, level(random), at);
            if (at - day(0) >= kWeek)
                history.emplace_back(at, *usual.inForce());
            at += std::chrono::hours(hours(random));
        }
        QVERIFY(history.size() > 400);
        for (std::size_t i = 0; i < history.size(); ++i) {
            for (std::size_t j = i; j < history.size() && history[j].first - history[i].first < kWeek; ++j)
                QVERIFY(std::abs(history[j].second - history[i].second) <= kLargestMoveDb + 1e-4F);
        }
    }

    void frozenItStaysAndThawedItFollowsAgain()
    {
        UsualLevel usual = found(-40);
        usual.frozen = true;
        for (int i = 7; i < 30; ++i)
            usual = withValue(usual, -30, day(i));
        QCOMPARE(*usual.inForce(), -40.0F);
        usual.frozen = false;
        usual = withValue(usual, -30, day(30));
        QCOMPARE(*usual.inForce(), -39.0F);
    }

    void aChangedSetupSuspendsItUntilARecheck()
    {
        UsualLevel usual = withSetupChanged(found(-40));
        QVERIFY(!usual.inForce());
        usual = withValue(usual, -20, day(7)); // not taken
        QVERIFY(!usual.inForce());
        QCOMPARE(usual.values.back(), -40.0F);
    }

    void aRecheckWithinSessionNoiseChangesNothing()
    {
        const UsualLevel usual = withRecheck(withSetupChanged(found(-40)), -38, day(7));
        QCOMPARE(*usual.inForce(), -40.0F);
        QCOMPARE(*usual.startingLevelDbfsA, -40.0F);
    }

    void aRecheckBeyondItMovesTheWholeScaleSoThatProgressStaysComparable()
    {
        UsualLevel usual = found(-40);
        for (int i = 7; i <= 14; ++i)
            usual = withValue(usual, -30, day(i)); // one up: -39, a gain of 1 dB over the start
        usual = withRecheck(withSetupChanged(usual), -29, day(15));
        QCOMPARE(*usual.inForce(), -29.0F);
        QCOMPARE(*usual.startingLevelDbfsA, -30.0F);
        QCOMPARE(usual.values.back(), -20.0F);
    }

    void aRecheckWithNothingBeforeIsTheFirstValue()
    {
        QCOMPARE(*withRecheck(withSetupChanged(UsualLevel{}), -33, day(0)).inForce(), -33.0F);
    }

    void whatIsNotANumberIsNotTaken()
    {
        const UsualLevel usual = found(-40);
        QCOMPARE(withValue(usual, std::numeric_limits<float>::quiet_NaN(), day(8)), usual);
        QCOMPARE(withRecheck(usual, -std::numeric_limits<float>::infinity(), day(8)), usual);
    }

    void theFirstReadingOfACheckIsDropped()
    {
        LevelCheck check;
        check.addReading(-20, 4s, true);
        QVERIFY(!check.value());
        check.addReading(-41, 4s, true);
        check.addReading(-39, 3s, true);
        QCOMPARE(*check.value(), -40.0F);
        QCOMPARE(check.voiced(), Millis{7000});
        QVERIFY(!check.value(kRecheckLength));
        check.addReading(-39, 3s, true);
        QCOMPARE(*check.value(kRecheckLength), -39.0F);
    }

    void readingsThatCannotBeTrustedDoNotCount()
    {
        LevelCheck check;
        check.addReading(-20, 4s, true);
        check.addReading(-10, 4s, false);
        QVERIFY(!check.value());
        check.addReading(-41, 4s, true);
        QCOMPARE(*check.value(), -41.0F);
    }

    void aVeryLongCheckKeepsItsFirstReadings()
    {
        LevelCheck check;
        for (int i = 0; i < 100; ++i)
            check.addReading(i <= 32 ? -40.0F : 0.0F, 1s, true);
        QCOMPARE(*check.value(), -40.0F);
        QCOMPARE(check.voiced(), Millis{32'000});
    }
};

QTEST_APPLESS_MAIN(TestUsualLevel)
#include "test_usual_level.moc"
