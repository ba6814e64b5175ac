#include "tests/common/signal/response.h"

#include <QtTest>

using namespace vh;
using namespace vh::test;

class TestLevel : public QObject
{
    Q_OBJECT
private slots:
    // IEC 61672-1:2013 Table 4, class 1: F, S and exposure level of 4 kHz tonebursts.
    void tonebursts_data()
    {
        QTest::addColumn<int>("row");
        for (int row = 0; row < static_cast<int>(std::size(kTable4)); ++row)
            QTest::addRow("%g ms", kTable4[row].ms) << row;
    }
    void tonebursts()
    {
        QFETCH(int, row);
        const ToneburstRow& goal = kTable4[row];
        const BurstResponse heard = burstResponse(goal.ms);
        const auto inside = [](double deviationDb, double above, double below) {
            return marginOf(deviationDb, above, below) > 0;
        };
        QVERIFY2(inside(heard.fastDb - goal.fastDb, goal.above, goal.below), qPrintable(QString::number(heard.fastDb)));
        QVERIFY2(inside(heard.exposureDb - goal.exposureDb, goal.above, goal.below),
                 qPrintable(QString::number(heard.exposureDb)));
        if (goal.slowAbove > 0)
            QVERIFY2(inside(heard.slowDb - goal.slowDb, goal.slowAbove, goal.slowBelow),
                     qPrintable(QString::number(heard.slowDb)));
    }

    // IEC 61672-1:2013 5.8: decay 34.7 dB/s (+3.8, -3.7) for F and 4.3 dB/s (+0.8, -0.7) for S.
    void decayAfterAToneStops()
    {
        TimeWeighting fast(TimeWeighting::kFastSeconds, kRateHz);
        TimeWeighting slow(TimeWeighting::kSlowSeconds, kRateHz);
        for (const float sample : sine(4000.0, 10.0, -20.0)) {
            fast.push(sample * sample);
            slow.push(sample * sample);
        }
        const double fastBefore = fast.db();
        const double slowBefore = slow.db();
        for (int i = 0; i < kRateHz; ++i) {
            fast.push(0);
            slow.push(0);
        }
        const double fastRate = fastBefore - fast.db();
        const double slowRate = slowBefore - slow.db();
        QVERIFY2(fastRate > 34.7 - 3.7 && fastRate < 34.7 + 3.8, qPrintable(QString::number(fastRate)));
        QVERIFY2(slowRate > 4.3 - 0.7 && slowRate < 4.3 + 0.8, qPrintable(QString::number(slowRate)));
        // 10 lg(e) / tau, closed form
        QVERIFY(std::abs(fastRate - 34.744) < 0.01);
        QVERIFY(std::abs(slowRate - 4.343) < 0.01);
    }

    // IEC 61672-1:2013 5.8: a steady 1 kHz tone reads the same on F and S within 0.1 dB.
    void slowAgreesWithFastOnASteadyTone()
    {
        TimeWeighting fast(TimeWeighting::kFastSeconds, kRateHz);
        TimeWeighting slow(TimeWeighting::kSlowSeconds, kRateHz);
        for (const float sample : sine(1000.0, 10.0, -20.0)) {
            fast.push(sample * sample);
            slow.push(sample * sample);
        }
        QVERIFY(std::abs(fast.db() - slow.db()) < 0.1);
        QVERIFY(std::abs(fast.db() + 20.0) < 0.05);
    }

    // Closed form from LAeq,T = 10 lg((1/T) integral of the square): IEC 61672-1:2013 3.9.
    void leqOfKnownMixtures()
    {
        const auto leq = [](std::initializer_list<std::pair<double, int>> parts) {
            LevelAccumulator sum;
            for (const auto& [db, count] : parts)
                sum.add(meanSquareOfDb(db - 100.0), count);
            return sum.leqDb() + 100.0;
        };
        QVERIFY(std::abs(leq({{60, 1}, {70, 1}}) - 67.40) < 0.005);
        QVERIFY(std::abs(leq({{60, 9}, {80, 1}}) - 70.37) < 0.005);
        QVERIFY(std::abs(leq({{70, 30}, {40, 30}}) - 66.99) < 0.005);
        QCOMPARE(LevelAccumulator().leqDb(), kLowestDb);
    }

    // LAE = LAeq + 10 lg(T / 1 s): IEC 61672-1:2013 3.12.
    void exposureIsLeqPlusTime()
    {
        LevelAccumulator sum;
        sum.add(meanSquareOfDb(-30), 2000); // 20 s of 10 ms
        QVERIFY(std::abs(sum.exposureDb(100) - (-30 + 13.0103)) < 1e-3);
    }

    // IEC 61672-1:2013 5.10: n bursts of Tb in Tm read 10 lg(n Tb / Tm) below the steady tone; limits as Table 4.
    void repeatedBursts_data()
    {
        QTest::addColumn<double>("burstMs");
        QTest::addColumn<int>("times");
        QTest::addColumn<double>("limitDb");
        QTest::newRow("200 ms") << 200.0 << 10 << 0.5;
        QTest::newRow("10 ms") << 10.0 << 50 << 1.0;
        QTest::newRow("2 ms") << 2.0 << 100 << 1.0;
        QTest::newRow("0.25 ms") << 0.25 << 100 << 1.0;
    }
    void repeatedBursts()
    {
        QFETCH(double, burstMs);
        QFETCH(int, times);
        QFETCH(double, limitDb);
        const double totalSeconds = 10.0;
        const Samples one =
            joined({sine(4000.0, burstMs / 1000.0, -20.0), silence(totalSeconds / times - burstMs / 1000.0)});
        Weighting weighting(kRateHz);
        LevelAccumulator sum;
        for (int i = 0; i < times; ++i) {
            for (const float sample : one) {
                const double a = weighting.push(sample).a;
                sum.add(a * a);
            }
        }
        const double goalDb = 10.0 * std::log10(times * burstMs / 1000.0 / totalSeconds);
        const double heardDb = sum.leqDb() - (-20.0 + steadyGain(4000.0).aDb);
        QVERIFY2(std::abs(heardDb - goalDb) < limitDb, qPrintable(QString("%1 for %2").arg(heardDb).arg(goalDb)));
    }
};

QTEST_APPLESS_MAIN(TestLevel)
#include "test_level.moc"
