#include "common/base/backoff.h"
#include "common/base/clock_offset.h"

#include <QtTest>

using namespace vh;

namespace
{
Instant at(std::int64_t ms)
{
    return Instant{Millis{ms}};
}
} // namespace

class TestClock : public QObject
{
    Q_OBJECT
private slots:
    // RFC 5905 section 8's formulas, worked by hand.
    void offsetAndDelayAreThoseOfTheRfc()
    {
        ClockOffset clock;
        clock.add(at(1000), at(1270), at(1275), at(1065));
        QCOMPARE(clock.offset(), Millis{240});
        QCOMPARE(clock.delay(), Millis{60});
        ClockOffset other;
        other.add(at(10'000), at(15'060), at(15'070), at(10'090));
        QCOMPARE(other.offset(), Millis{5020});
        QCOMPARE(other.delay(), Millis{80});
    }

    void theLeastDelayOfTheLastEightCounts()
    {
        ClockOffset clock;
        clock.guess(at(500), at(0));
        QCOMPARE(clock.offset(), Millis{500});
        clock.add(at(0), at(105), at(105), at(10));  // delay 10, offset 100
        clock.add(at(0), at(400), at(400), at(600)); // delay 600, offset 100
        QCOMPARE(clock.delay(), Millis{10});
        for (int i = 0; i < 8; ++i)
            clock.add(at(0), at(220), at(220), at(40)); // delay 40, offset 200
        QCOMPARE(clock.offset(), Millis{200});          // the best one is older than eight exchanges
    }

    void impossibleExchangesAreNotTaken()
    {
        ClockOffset clock;
        clock.add(at(100), at(0), at(0), at(50));
        clock.add(at(0), at(100), at(50), at(150));
        QVERIFY(clock.isEmpty());
    }

    void waitsDoubleUpToTenSecondsWithFullJitter()
    {
        Backoff backoff;
        QCOMPARE(backoff.next(0.0), Millis{0});
        QCOMPARE(backoff.next(0.5), Millis{300});
        for (int i = 0; i < 20; ++i)
            QVERIFY(backoff.next(0.999) < Backoff::kMost);
        QCOMPARE(backoff.next(0.5), Millis{5000});
        backoff.reset();
        QCOMPARE(backoff.next(0.5), Millis{150});
    }
};

QTEST_APPLESS_MAIN(TestClock)
#include "test_clock.moc"
