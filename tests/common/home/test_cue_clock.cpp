#include "common/home/cue_clock.h"

#include <QtTest>

using namespace vh;

namespace
{

constexpr std::uint32_t kStream = 7;
constexpr std::uint64_t kFrame = 960; ///< 20 ms at 48 kHz
constexpr Instant kStart{Millis{1'000'000}};

} // namespace

class TestCueClock : public QObject
{
    Q_OBJECT
private:
    CueClock m_cue;
    HandClock m_clock{kStart};
    wire::PlaceNow m_place;
    std::uint64_t m_sent = 0; ///< samples

    void frame(std::uint32_t stream = kStream)
    {
        m_cue.frameCame(stream, m_sent, m_clock.now());
        m_sent += kFrame;
    }
    void nextTurn(Phase phase = Phase::running)
    {
        ++m_place.serial;
        ++m_place.turnSerial;
        m_place.phase = phase;
        m_cue.placeCame(m_place, m_clock.now());
    }
    /// Sound flows, and the first turn is cued.
    void flow()
    {
        m_cue.setStream(kStream);
        nextTurn();
        frame();
        QVERIFY(m_cue.look(0, m_clock.now()));
    }
    std::uint32_t cued() const { return m_cue.cue() ? m_cue.cue()->turnSerial : 0; }

private slots:
    void init()
    {
        m_cue = {};
        m_place = {};
        m_place.phase = Phase::running;
        m_sent = 48'000;
    }

    void withoutSoundTheCueChangesAtOnce()
    {
        nextTurn();
        QVERIFY(m_cue.look(std::nullopt, m_clock.now()));
        QCOMPARE(cued(), 1U);
        nextTurn();
        QCOMPARE(cued(), 2U);
        QVERIFY(!m_cue.waits());
    }

    void theFirstSampleOfTheNextFrameChangesIt()
    {
        flow();
        nextTurn();
        const std::uint64_t first = m_sent;
        QVERIFY(!m_cue.look(first, m_clock.now())); // the frame after it has not come
        frame();
        QVERIFY(m_cue.waits());
        QVERIFY(!m_cue.look(first - 1, m_clock.now()));
        QVERIFY(!m_cue.look(first, m_clock.now())); // the last sample before it has just been heard
        QCOMPARE(cued(), 1U);
        QVERIFY(m_cue.look(first + 1, m_clock.now()));
        QCOMPARE(cued(), 2U);
        QVERIFY(!m_cue.look(first + 2, m_clock.now())); // told once
    }

    void laterFramesDoNotMoveIt()
    {
        flow();
        nextTurn();
        const std::uint64_t first = m_sent;
        for (int i = 0; i < 20; ++i)
            frame();
        QVERIFY(m_cue.look(first + 1, m_clock.now()));
    }

    void placesKeepTheirOrderAndTheNewestThatIsHeardStands()
    {
        flow();
        nextTurn();
        const std::uint64_t second = m_sent;
        frame();
        nextTurn();
        const std::uint64_t third = m_sent;
        frame();
        QVERIFY(m_cue.look(second + 1, m_clock.now()));
        QCOMPARE(cued(), 2U);
        nextTurn();
        frame();
        QVERIFY(m_cue.look(third + 10 * kFrame, m_clock.now()));
        QCOMPARE(cued(), 4U); // two at once: the newest
        QVERIFY(!m_cue.waits());
    }

    void aStallHoldsItForTwoSecondsAndNoLonger()
    {
        flow();
        nextTurn();
        frame(); // has come, but nothing is handed to the loudspeaker any more
        m_clock.advance(CueClock::kAtMost - Millis{1});
        QVERIFY(!m_cue.look(0, m_clock.now()));
        m_clock.advance(Millis{1});
        QVERIFY(m_cue.look(0, m_clock.now()));
        QCOMPARE(cued(), 2U);
    }

    void soundThatHasStoppedBeforeTheNextFrameHoldsNothing()
    {
        flow();
        nextTurn(); // and she mutes: no frame comes after it
        m_clock.advance(CueClock::kQuietAfter - Millis{1});
        QVERIFY(!m_cue.look(0, m_clock.now()));
        m_clock.advance(Millis{1});
        QVERIFY(m_cue.look(0, m_clock.now()));
        nextTurn();
        QVERIFY(m_cue.look(0, m_clock.now())); // no sound flows: at once
    }

    void mutedOrFromElsewhereItChangesAtOnce()
    {
        flow();
        nextTurn();
        m_cue.setStream(std::nullopt);
        QVERIFY(m_cue.look(0, m_clock.now()));
        QCOMPARE(cued(), 2U);
        nextTurn();
        QCOMPARE(cued(), 3U);
    }

    void whereNothingIsPlayedItChangesAtOnce()
    {
        flow();
        nextTurn();
        QVERIFY(m_cue.look(std::nullopt, m_clock.now()));
        QCOMPARE(cued(), 2U);
    }

    void framesOfAnotherVoiceMeanNothing()
    {
        flow();
        nextTurn();
        frame(kStream + 1);
        QVERIFY(!m_cue.look(m_sent, m_clock.now()));
        const std::uint64_t first = m_sent;
        frame();
        QVERIFY(m_cue.look(first + 1, m_clock.now()));
    }

    void anotherStreamIsCountedAnew()
    {
        flow();
        nextTurn();
        m_sent = 9'000'000;
        frame();
        m_cue.setStream(kStream + 1); // a stand-in took the place
        m_sent = 0;
        frame(kStream + 1);
        QVERIFY(!m_cue.look(0, m_clock.now()));
        QVERIFY(m_cue.look(1, m_clock.now()));
        QCOMPARE(cued(), 2U);
    }

    void aHeldClockIsTheSameTurnAndCountsAtOnce()
    {
        flow();
        ++m_place.serial;
        m_place.phase = Phase::waiting;
        m_cue.placeCame(m_place, m_clock.now());
        QVERIFY(m_cue.look(0, m_clock.now()));
        QCOMPARE(m_cue.cue()->phase, Phase::waiting);
    }

    void aHeldClockOfATurnAheadDoesNotBringThatTurnForward()
    {
        flow();
        nextTurn();
        frame();
        ++m_place.serial;
        m_place.phase = Phase::waiting;
        m_cue.placeCame(m_place, m_clock.now());
        QVERIFY(!m_cue.look(0, m_clock.now()));
        QCOMPARE(cued(), 1U);
        QVERIFY(m_cue.look(m_sent, m_clock.now()));
        QCOMPARE(cued(), 2U);
        QCOMPARE(m_cue.cue()->phase, Phase::waiting);
    }

    void anEndAndACalmPauseAreNotWaitedFor()
    {
        flow();
        nextTurn();
        nextTurn(Phase::calmPause);
        QCOMPARE(m_cue.cue()->phase, Phase::calmPause);
        QVERIFY(!m_cue.waits());
        nextTurn();
        frame();
        nextTurn(Phase::ended);
        QCOMPARE(m_cue.cue()->phase, Phase::ended);
    }

    void anotherClassBeginsAtOnce()
    {
        flow();
        m_place.classId = ClassId::random();
        nextTurn();
        QCOMPARE(cued(), 2U);
    }

    void aClockSetBackHoldsNothing()
    {
        flow();
        nextTurn();
        frame();
        m_clock.advance(Millis{-5000});
        QVERIFY(m_cue.look(0, m_clock.now()));
    }
};

QTEST_APPLESS_MAIN(TestCueClock)
#include "test_cue_clock.moc"
