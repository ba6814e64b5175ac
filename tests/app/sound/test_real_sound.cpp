// Ears on a real sound server through Qt Multimedia: a file is played into a null sink and heard from its monitor. The
// tests run in the order they stand in; the last one takes the server away. Skipped where no server can be run.
#include "app/sound/ears.h"
#include "tests/app/sound/sound_server.h"
#include "tests/app/sound/tone_file.h"

#include <QtTest>

using namespace vh;
using namespace vh::sound;

class TestRealSound : public QObject
{
    Q_OBJECT
    QTemporaryDir m_folder;
    QString m_tone;
    std::unique_ptr<SoundServer> m_server;
    std::unique_ptr<Ears> m_ears;

    void hear()
    {
        m_ears->start(DeviceChoice::deviceOf("mic"));
        QTRY_COMPARE_WITH_TIMEOUT(m_ears->state(), EarsState::hearing, 10'000);
    }
    /// A-weighted Leq over this many frames of 10 ms, from now on, the first half second left out.
    double levelNow(std::size_t count)
    {
        m_ears->drainFrames([](const VoiceFrame&) {});
        std::vector<VoiceFrame> frames;
        const bool enough = QTest::qWaitFor(
            [&] {
                m_ears->drainFrames([&](const VoiceFrame& frame) { frames.push_back(frame); });
                return frames.size() >= count + 50;
            },
            20'000);
        return enough ? leqOf(frames, 50) : -999;
    }

private slots:
    void initTestCase()
    {
        m_tone = m_folder.filePath("tone.wav");
        QVERIFY(writeTone(m_tone, {.seconds = 100, .dbfs = -26}));
        m_server = std::make_unique<SoundServer>();
        if (!m_server->start())
            QSKIP(qPrintable("no sound server can be run here: " + m_server->reason()));
        m_server->play(m_tone);
        m_ears = std::make_unique<Ears>();
        QTRY_VERIFY_WITH_TIMEOUT(!m_ears->devices().isEmpty(), 10'000);
    }
    void cleanupTestCase()
    {
        m_ears.reset();
        m_server.reset();
    }
    void cleanup()
    {
        if (m_ears)
            m_ears->stop();
    }

    void whatIsPlayedIsHeardAtItsLevel()
    {
        hear();
        const double level = levelNow(200);
        // 0.5 dB: the promise for a whole home; the server itself is exact.
        QVERIFY2(std::abs(level - -26.0) <= 0.5, qPrintable(QString::number(level)));
        QCOMPARE(m_ears->openDevice().id, QByteArray("mic"));
        QCOMPARE(m_ears->droppedFrames(), std::uint64_t{0});
    }

    void stopReallyReleasesTheMicrophone()
    {
        hear();
        QCOMPARE(m_server->openStreams(), 1);
        m_ears->stop();
        QTRY_COMPARE(m_server->openStreams(), 0);
    }

    void aMovedSliderIsSeenAndChangesTheReading()
    {
        hear();
        QTRY_VERIFY(m_ears->inputVolume().has_value());
        QVERIFY(std::abs(*m_ears->inputVolume() - 1.0F) < 0.01F);
        m_server->setVolume("50%");
        // The server's scale is cubic: 50 % is a factor of 0.125, 18.1 dB.
        QTRY_VERIFY(std::abs(m_ears->inputVolume().value_or(1) - 0.125F) < 0.002F);
        const double level = levelNow(100);
        QVERIFY2(std::abs(level - (-26.0 - 18.06)) <= 0.5, qPrintable(QString::number(level)));
        m_server->setVolume("100%");
        QTRY_VERIFY(std::abs(m_ears->inputVolume().value_or(0) - 1.0F) < 0.01F);
    }

    void aMicrophoneTakenAwayIsNoticedAndHeardAgainWhenItIsBack()
    {
        hear();
        m_server->unplug();
        QTRY_COMPARE_WITH_TIMEOUT(m_ears->state(), EarsState::deviceLost, 10'000);
        m_server->plug();
        QTRY_COMPARE_WITH_TIMEOUT(m_ears->state(), EarsState::hearing, 15'000);
        QVERIFY(std::abs(levelNow(100) - -26.0) <= 0.5);
    }

    void aLineWithoutSamplesIsNoticedAndHeardAgain()
    {
        hear();
        m_server->suspend(true);
        QTRY_COMPARE_WITH_TIMEOUT(m_ears->state(), EarsState::deviceLost, 15'000);
        m_server->suspend(false);
        QTRY_COMPARE_WITH_TIMEOUT(m_ears->state(), EarsState::hearing, 15'000);
    }

    void aServerThatDiesIsNoticedAndStopStillReturns()
    {
        hear();
        m_server->kill();
        QTRY_COMPARE_WITH_TIMEOUT(m_ears->state(), EarsState::deviceLost, 10'000);
        m_ears->stop();
        QCOMPARE(m_ears->state(), EarsState::off);
    }
};

QTEST_GUILESS_MAIN(TestRealSound)
#include "test_real_sound.moc"
