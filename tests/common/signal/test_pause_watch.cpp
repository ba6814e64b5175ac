// What pauses say of a microphone: an ordinary one, one whose gain is ridden, one that is gated.
#include "common/signal/pause_watch.h"

#include <QtTest>

#include <cmath>

using namespace vh;

namespace
{

void hear(PauseWatch& watch, double seconds, float dbfsA, bool voiced, float risesDb = 0, float within = 1)
{
    const int frames = static_cast<int>(seconds * 100);
    for (int i = 0; i < frames; ++i) {
        VoiceFrame frame;
        const float gone = std::min(1.0F, static_cast<float>(i) / (100 * within));
        const float wobble = i % 10 < 5 ? 0.3F : -0.3F; // no noise is quite even
        frame.meanSquareA = std::pow(10.0F, (dbfsA + risesDb * gone + wobble) / 10);
        frame.voiced = voiced;
        watch.add(frame);
    }
}

void quiet(PauseWatch& watch, float dbfsA)
{
    for (int i = 0; i < 300; ++i) {
        VoiceFrame frame;
        frame.meanSquareA = std::pow(10.0F, dbfsA / 10);
        watch.addQuiet(frame);
    }
}

} // namespace

class TestPauseWatch : public QObject
{
    Q_OBJECT
    using Finding = PauseWatch::Finding;
private slots:
    void anOrdinaryMicrophoneShowsTheSameRoomInEveryPause()
    {
        PauseWatch watch;
        quiet(watch, -70);
        for (int i = 0; i < 4; ++i) {
            hear(watch, 2, -30, true);
            hear(watch, 2, -70, false);
        }
        watch.finishPause();
        QCOMPARE(watch.count(), std::size_t{4});
        QVERIFY(std::abs(watch.riseDb().median) < 0.1F);
        QVERIFY(watch.finding() == Finding::nothing);
    }

    void aRoomThatDiesAwayAfterAVoiceIsNoFault()
    {
        PauseWatch watch;
        quiet(watch, -70);
        for (int i = 0; i < 3; ++i) {
            hear(watch, 2, -30, true);
            hear(watch, 2, -50, false, -20, 0.4F);
        }
        QVERIFY(watch.finding() == Finding::nothing);
    }

    void aWhistleThatComesUpInPausesIsNot()
    {
        PauseWatch watch;
        const auto hearWith = [&watch](int frames, bool voiced, float dbfsA) {
            VoiceFrame frame;
            frame.voiced = voiced;
            frame.meanSquareA = std::pow(10.0F, dbfsA / 10);
            frame.lowMeanSquare = 1e-6F; // the gain stays
            for (int i = 0; i < frames; ++i)
                watch.add(frame);
        };
        VoiceFrame before;
        before.meanSquareA = std::pow(10.0F, -6.0F);
        before.lowMeanSquare = 1e-6F;
        for (int i = 0; i < 300; ++i)
            watch.addQuiet(before);
        for (int i = 0; i < 3; ++i) {
            hearWith(200, true, -30);
            hearWith(100, false, -70);
            hearWith(120, false, -60);
        }
        QVERIFY(watch.riseDb().median > 3);
        QVERIFY(std::abs(watch.lowRiseDb()) < 0.1F);
        QVERIFY(watch.finding() == Finding::nothing);
    }

    void aRoomThatComesUpInPausesIsGainThatIsRidden()
    {
        PauseWatch watch;
        quiet(watch, -60);
        for (int i = 0; i < 3; ++i) {
            hear(watch, 2, -30, true);
            hear(watch, 2, -68, false, 6, 2);
        }
        QVERIFY(watch.riseDb().median > 3);
        QVERIFY(watch.finding() == Finding::ridesGain);
    }

    void aRoomThatIsHeldDownBetweenWordsIsGainThatIsRidden()
    {
        PauseWatch watch;
        quiet(watch, -60);
        for (int i = 0; i < 3; ++i) {
            hear(watch, 2, -30, true);
            hear(watch, 2, -66, false);
        }
        QVERIFY(std::abs(watch.underQuietDb().median - 6) < 0.5F);
        QVERIFY(watch.finding() == Finding::ridesGain);
    }

    void aNoiseThatCameInThePausesAloneIsNot()
    {
        PauseWatch watch;
        quiet(watch, -70);
        for (int i = 0; i < 3; ++i) {
            hear(watch, 2, -30, true);
            hear(watch, 2, -70, false, 6, 2); // the longer silence was as quiet as the beginning of the pauses
        }
        QVERIFY(watch.finding() == Finding::nothing);
    }

    void digitalBlackBetweenWordsIsAGate()
    {
        PauseWatch watch;
        for (int i = 0; i < 3; ++i) {
            hear(watch, 2, -30, true);
            hear(watch, 2, -140, false);
        }
        QVERIFY(watch.mostlyBlack());
        QVERIFY(watch.finding() == Finding::gated);
    }

    void lessRoomThanAnyRoomHasIsAGate()
    {
        PauseWatch watch;
        for (int i = 0; i < 3; ++i) {
            hear(watch, 2, -25, true);
            hear(watch, 2, -88, false);
        }
        QVERIFY(watch.finding() == Finding::gated);
    }

    void shortPausesAndShortVoicesSayNothing()
    {
        PauseWatch watch;
        for (int i = 0; i < 10; ++i) {
            hear(watch, 2, -30, true);
            hear(watch, 1, -68, false, 8, 1);
        }
        QCOMPARE(watch.count(), std::size_t{0});
        PauseWatch coughs;
        hear(coughs, 0.3, -30, true);
        hear(coughs, 2, -68, false, 6, 2);
        QCOMPARE(coughs.count(), std::size_t{0});
    }
};

QTEST_APPLESS_MAIN(TestPauseWatch)
#include "test_pause_watch.moc"
