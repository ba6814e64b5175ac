// A gain that moves when somebody speaks, heard from the room: under the voice, and ever since.
#include "common/signal/room_gain.h"

#include <QtTest>

#include <cmath>

using namespace vh;

namespace
{

/// A microphone whose gain is `inPauseDb` and `underDb`.
struct Microphone {
    float inPauseDb = 0;
    float underDb = 0;
    float lowDb = -60;
    float roomDb = -70;
    RoomGain gain;
    std::uint64_t chance = 1;

    float wobble() ///< -2 ... 2 dB: no noise is quite even
    {
        chance = chance * 6364136223846793005U + 1442695040888963407U;
        return static_cast<float>((chance >> 40) % 4096) / 1024 - 2;
    }
    void hear(double seconds, bool voiced, bool before = false)
    {
        const float moved = voiced ? underDb : inPauseDb;
        for (int i = 0; i < static_cast<int>(100 * seconds); ++i) {
            VoiceFrame frame;
            frame.voiced = voiced;
            frame.meanSquareA = std::pow(10.0F, ((voiced ? -35 : roomDb + wobble()) + moved) / 10);
            frame.lowMeanSquare = std::pow(10.0F, (lowDb + wobble() + moved) / 10);
            if (before)
                gain.addRoom(frame);
            else
                gain.add(frame);
        }
    }
    void check()
    {
        hear(3, false, true);
        for (int i = 0; i < 3; ++i) {
            hear(2, true);
            hear(2, false);
        }
    }
};

} // namespace

class TestRoomGain : public QObject
{
    Q_OBJECT
    using Finding = RoomGain::Finding;
private slots:
    void aGainThatStaysIsFoundToStay()
    {
        Microphone ordinary;
        ordinary.check();
        QCOMPARE(ordinary.gain.under().spells, std::size_t{3});
        QVERIFY(std::abs(ordinary.gain.under().meanDb) < 0.5F);
        QVERIFY(std::abs(ordinary.gain.since()->lowDb) < 0.5F);
        QVERIFY(ordinary.gain.finding() == Finding::nothing);
    }

    void aGainThatGivesWayToAVoiceIsFoundByHowMuch()
    {
        Microphone rides;
        rides.underDb = -5;
        rides.check();
        QVERIFY(std::abs(rides.gain.under().meanDb - 5) < 0.5F);
        QVERIFY(rides.gain.finding() == Finding::rides);
    }

    void aGateIsFound()
    {
        Microphone gated;
        gated.inPauseDb = -30;
        gated.check();
        QVERIFY(gated.gain.finding() == Finding::gates);
    }

    void aGainThatIsTurnedDownAndStaysIsFound()
    {
        Microphone held;
        held.hear(3, false, true);
        held.underDb = held.inPauseDb = -4;
        for (int i = 0; i < 3; ++i) {
            held.hear(2, true);
            held.hear(2, false);
        }
        QVERIFY(std::abs(held.gain.since()->lowDb - 4) < 0.5F);
        QVERIFY(std::abs(held.gain.since()->audibleDb - 4) < 0.5F);
        QVERIFY(held.gain.finding() == Finding::rides);
    }

    void aKettleThatStopsIsNoGain()
    {
        Microphone ordinary;
        ordinary.roomDb = -55;
        ordinary.hear(3, false, true);
        ordinary.roomDb = -70;
        for (int i = 0; i < 3; ++i) {
            ordinary.hear(2, true);
            ordinary.hear(2, false);
        }
        QVERIFY(ordinary.gain.since()->audibleDb > 10);
        QVERIFY(ordinary.gain.finding() == Finding::nothing);
    }

    void aLorryThatPassesIsNoGain()
    {
        Microphone ordinary;
        for (int i = 0; i < 3; ++i) { // it comes while nothing is said, and goes
            ordinary.lowDb = -60 + 6.0F * static_cast<float>(i);
            ordinary.hear(2, true);
            ordinary.hear(2, false);
        }
        for (int i = 2; i >= 0; --i) {
            ordinary.lowDb = -60 + 6.0F * static_cast<float>(i);
            ordinary.hear(2, true);
            ordinary.hear(2, false);
        }
        QVERIFY(ordinary.gain.finding() == Finding::nothing);
    }

    void oneSpellIsNotEnoughToTell()
    {
        Microphone rides;
        rides.underDb = -6;
        rides.hear(1.5, false, true);
        rides.hear(2, true);
        rides.hear(2, false);
        QCOMPARE(rides.gain.under().spells, std::size_t{1});
        QVERIFY(rides.gain.finding() == Finding::nothing);
    }

    void aMicrophoneWithoutTheBandTellsNothing()
    {
        Microphone cut;
        cut.lowDb = -200;
        cut.underDb = -6;
        cut.check();
        QCOMPARE(cut.gain.under().spells, std::size_t{0});
        QVERIFY(cut.gain.finding() == Finding::nothing);
    }
};

QTEST_APPLESS_MAIN(TestRoomGain)
#include "test_room_gain.moc"
