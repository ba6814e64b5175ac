#include "common/base/clock_offset.h"

#include <QtTest>

#include <random>

using namespace vh;
using namespace std::chrono_literals;

namespace
{

/// An exchange over a line that takes `out` to the other side and `back` from it, whose clock is `ahead` of ours.
ClockExchange over(std::chrono::nanoseconds at, std::chrono::nanoseconds out, std::chrono::nanoseconds back,
                   std::chrono::nanoseconds ahead)
{
    return {at, at + out + ahead, at + out + ahead + 3ms, at + out + 3ms + back};
}

} // namespace

class TestClockOffset : public QObject
{
    Q_OBJECT
private slots:
    // Formulas: RFC 5905 section 8: theta = ((T2 - T1) + (T3 - T4)) / 2, delta = (T4 - T1) - (T3 - T2).
    void workedExamples_data()
    {
        QTest::addColumn<ClockExchange>("exchange");
        QTest::addColumn<qint64>("offsetNs");
        QTest::addColumn<qint64>("delayNs");
        // A worked example published in a blog on NTP packets; its line was lopsided, the true offset about 0.
        QTest::newRow("published, in the millisecond range")
            << ClockExchange{410'634us, 415'284us, 415'471us, 430'596us} << qint64{-5'237'500} << qint64{19'775'000};
        // By hand from the formulas: ((270) + (210)) / 2 = 240; 65 - 5 = 60.
        QTest::newRow("by hand, milliseconds")
            << ClockExchange{1000ms, 1270ms, 1275ms, 1065ms} << qint64{240'000'000} << qint64{60'000'000};
        // ((5.060) + (4.980)) / 2 = 5.020; 0.090 - 0.010 = 0.080.
        QTest::newRow("by hand, seconds ahead")
            << ClockExchange{10'000ms, 15'060ms, 15'070ms, 10'090ms} << qint64{5'020'000'000} << qint64{80'000'000};
        QTest::newRow("behind is negative")
            << ClockExchange{15'000ms, 10'010ms, 10'010ms, 15'020ms} << qint64{-5'000'000'000} << qint64{20'000'000};
    }
    void workedExamples()
    {
        QFETCH(ClockExchange, exchange);
        QFETCH(qint64, offsetNs);
        QFETCH(qint64, delayNs);
        QCOMPARE(qint64{exchange.offset().count()}, offsetNs);
        QCOMPARE(qint64{exchange.delay().count()}, delayNs);
    }

    void nothingIsBelievedBeforeTheFirst() { QVERIFY(!ClockOffset().best()); }

    void theShortestWayIsBelieved()
    {
        ClockOffset offset;
        offset.add(over(0s, 40ms, 10ms, 1s));
        offset.add(over(1s, 5ms, 5ms, 1s));
        offset.add(over(2s, 10ms, 60ms, 1s));
        QCOMPARE(offset.best()->offset().count(), std::chrono::nanoseconds(1s).count());
    }

    void onlyTheLastEightCount()
    {
        ClockOffset offset;
        offset.add(over(0s, 1ms, 1ms, 5s));
        for (int i = 1; i <= 7; ++i)
            offset.add(over(std::chrono::seconds(i), 10ms, 10ms, 7s));
        QCOMPARE(offset.best()->offset().count(), std::chrono::nanoseconds(5s).count());
        offset.add(over(9s, 10ms, 10ms, 7s));
        QCOMPARE(offset.best()->offset().count(), std::chrono::nanoseconds(7s).count());
    }

    void ofEqualsTheNewestIsBelieved()
    {
        ClockOffset offset;
        offset.add(over(0s, 10ms, 10ms, 1s));
        offset.add(over(1s, 10ms, 10ms, 2s));
        QCOMPARE(offset.best()->offset().count(), std::chrono::nanoseconds(2s).count());
    }

    void anotherLineBeginsAnew()
    {
        ClockOffset offset;
        offset.add(over(0s, 1ms, 1ms, 1s));
        offset.forget();
        QVERIFY(!offset.best());
        offset.add(over(1s, 50ms, 50ms, 2s));
        QCOMPARE(offset.best()->offset().count(), std::chrono::nanoseconds(2s).count());
    }

    // RFC 5905 section 8: the true offset lies within half the delay of what was found.
    void theErrorIsAtMostHalfTheDelay()
    {
        std::mt19937 random(11);
        std::uniform_int_distribution<int> way(1, 400);
        ClockOffset offset;
        const std::chrono::nanoseconds truth = -1234ms;
        for (int i = 0; i < 500; ++i) {
            offset.add(over(std::chrono::seconds(i), std::chrono::milliseconds(way(random)),
                            std::chrono::milliseconds(way(random)), truth));
            const ClockExchange best = *offset.best();
            QVERIFY(std::chrono::abs(best.offset() - truth) <= best.delay() / 2);
        }
    }
};

QTEST_APPLESS_MAIN(TestClockOffset)
#include "test_clock_offset.moc"
