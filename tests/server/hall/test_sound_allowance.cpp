// How many sound frames of one sender are carried: what a voice needs, and what a line that stood still sends at once.
#include "server/hall/carried_sound.h"

#include <QtTest>

using namespace vh;

class TestSoundAllowance : public QObject
{
    Q_OBJECT
private slots:
    void aVoiceGoesOnForeverAlsoWithAClockThatRunsFast()
    {
        hall::SoundAllowance allowance;
        net::SteadyTime now = std::chrono::steady_clock::now();
        for (int i = 0; i < 50 * 3600; ++i) { // an hour at 50.05 frames a second
            now += std::chrono::microseconds(19'980);
            QVERIFY(allowance.take(now));
        }
    }

    void afterAStallItAllComesAtOnceAndIsCarried()
    {
        hall::SoundAllowance allowance;
        const net::SteadyTime start = std::chrono::steady_clock::now();
        net::SteadyTime now = start;
        for (int minute = 0; minute < 10; ++minute) {
            now += std::chrono::seconds(3); // nothing came
            for (int i = 0; i < 150; ++i)
                QVERIFY(allowance.take(now));
            for (int i = 0; i < 50 * 57; ++i)
                QVERIFY(allowance.take(now += std::chrono::milliseconds(20)));
        }
    }

    void aFloodGetsItsBurstAndThenItsRate()
    {
        hall::SoundAllowance allowance;
        net::SteadyTime now = std::chrono::steady_clock::now();
        const auto takenOf = [&](int frames, std::chrono::microseconds apart) {
            int taken = 0;
            for (int i = 0; i < frames; ++i)
                taken += allowance.take(now += apart);
            return taken;
        };
        QCOMPARE(takenOf(1'000, std::chrono::microseconds(0)), 250);
        const int later = takenOf(10'000, std::chrono::milliseconds(1)); // ten seconds of it
        QVERIFY2(later == 750 || later == 749, qPrintable(QString::number(later))); // the last may be rounded away
    }
};

QTEST_APPLESS_MAIN(TestSoundAllowance)
#include "test_sound_allowance.moc"
