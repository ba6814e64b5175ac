#include "common/base/backoff.h"

#include <QtTest>

using namespace vh;
using namespace std::chrono_literals;

class TestBackoff : public QObject
{
    Q_OBJECT
private slots:
    // random(0, min(cap, base * 2^attempt)), with base 0.3 s and cap 3 s, at the upper end of the draw.
    void theBoundDoublesUntilItStops()
    {
        Backoff backoff;
        for (const Millis bound : {300ms, 600ms, 1200ms, 2400ms, 3000ms, 3000ms, 3000ms})
            QCOMPARE(backoff.next(1), bound);
    }

    void theWholeRangeIsDrawnFrom()
    {
        for (const double random : {0.0, 0.1, 0.5, 0.9}) {
            Backoff backoff;
            QCOMPARE(backoff.next(random), Millis{static_cast<int>(300 * random)});
            QCOMPARE(backoff.next(random), Millis{static_cast<int>(600 * random)});
        }
    }

    void aGoodLineBeginsAnew()
    {
        Backoff backoff;
        for (int i = 0; i < 5; ++i)
            (void)backoff.next(0.5);
        backoff.reset();
        QCOMPARE(backoff.next(1), 300ms);
    }

    void noDrawLeavesTheRange()
    {
        Backoff backoff;
        QCOMPARE(backoff.next(-4), 0ms);
        QCOMPARE(backoff.next(7), 600ms);
    }
};

QTEST_APPLESS_MAIN(TestBackoff)
#include "test_backoff.moc"
