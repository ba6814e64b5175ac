// Ears and loudspeaker on a real sound server through Qt Multimedia: what is played into a null sink is heard from its
// monitor. The tests run in the order they stand in; the last one takes the server away. Where no server can be run
// they are skipped with a word, but fail under VOICEHALL_MUST_HEAR, which tests/run sets: what runs them there has
// installed one.
#include "app/sound/ears.h"
#include "app/sound/loudspeaker.h"
#include "tests/app/sound/sound_server.h"
#include "tests/app/sound/tone_file.h"

#include <QtTest>

#include <atomic>
#include <cmath>
#include <numbers>

using namespace vh;
using namespace vh::sound;

namespace
{

/// 1 kHz at -26 dB re full scale.
class ToneFeed final : public VoiceFeed
{
public:
    void render(std::span<float> into) noexcept override
    {
        for (float& sample : into)
            sample = m_amplitude *
                     static_cast<float>(std::sin(2 * std::numbers::pi * static_cast<double>(m_at++ % 48) / 48));
        m_upTo += into.size();
    }
    HeardUpTo renderedUpTo() const noexcept override { return {1, m_upTo}; }

private:
    float m_amplitude = static_cast<float>(std::sqrt(2 * std::pow(10, -2.6)));
    std::size_t m_at = 0;
    std::atomic<std::uint64_t> m_upTo{0};
};

/// The mean square of what a source brings.
class LevelSink final : public SampleSink
{
public:
    void take(std::span<const float> samples) noexcept override
    {
        for (const float sample : samples)
            m_sum = m_sum + static_cast<double>(sample) * static_cast<double>(sample);
        count += samples.size();
    }
    [[nodiscard]] double db() const { return 10 * std::log10(m_sum / static_cast<double>(count)); }
    std::atomic<std::uint64_t> count{0};

private:
    std::atomic<double> m_sum{0};
};

} // namespace

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
        if (!m_server->start()) {
            const QString words = "no sound server can be run here: " + m_server->reason();
            QVERIFY2(!qEnvironmentVariableIsSet("VOICEHALL_MUST_HEAR"), qPrintable(words));
            QSKIP(qPrintable(words));
        }
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

    void whatTheLoudspeakerPlaysIsHeardAtItsLevelAndIsTheFarEnd()
    {
        m_server->stopPlaying();
        ToneFeed feed;
        const auto far = std::make_shared<FarEnd>();
        Loudspeaker loudspeaker(feed, far);
        QTRY_VERIFY(!loudspeaker.devices().isEmpty());
        m_ears->setFarEnd(far);
        loudspeaker.start(DeviceChoice::deviceOf("room"));
        QTRY_COMPARE_WITH_TIMEOUT(loudspeaker.state(), LoudspeakerState::playing, 10'000);
        hear();
        const double level = levelNow(200);
        QVERIFY2(std::abs(level - -26.0) <= 0.5, qPrintable(QString::number(level)));
        QTRY_VERIFY(loudspeaker.audibleUpTo().sample > 48'000);
        QVERIFY(loudspeaker.audibleUpTo().sample < feed.renderedUpTo().sample);
        QVERIFY(loudspeaker.latency().has_value());
        QVERIFY(m_ears->snapshot().frame.whose != Whose::person); // what it hears is the loudspeaker
        QVERIFY(far->ranDry() <= 3);                              // while the stock was being laid
        m_ears->stop();
        m_ears->setFarEnd(nullptr);
    }

    void headphonesPulledOutPlayOnThroughTheLoudspeaker()
    {
        m_server->stopPlaying();
        ToneFeed feed;
        m_server->load("module-remap-sink sink_name=phones master=room");
        Loudspeaker loudspeaker(feed, std::make_shared<FarEnd>());
        QTRY_VERIFY_WITH_TIMEOUT(loudspeaker.devices().size() == 2, 10'000);
        loudspeaker.start(DeviceChoice::deviceOf("phones"));
        QTRY_COMPARE_WITH_TIMEOUT(loudspeaker.state(), LoudspeakerState::playing, 10'000);
        QCOMPARE(loudspeaker.openDevice().id, QByteArray("phones"));
        m_server->unload("module-remap-sink");
        QTRY_COMPARE_WITH_TIMEOUT(loudspeaker.openDevice().id, QByteArray("room"), 10'000);
        QTRY_COMPARE_WITH_TIMEOUT(loudspeaker.state(), LoudspeakerState::playing, 10'000);
        hear();
        const double level = levelNow(100);
        QVERIFY2(std::abs(level - -26.0) <= 0.5, qPrintable(QString::number(level)));
    }

    void whatTheWholeSystemPlaysIsHeardFromItsMonitor()
    {
        m_server->play(m_tone);
        LevelSink sink;
        const auto monitor = makeMonitorSource();
        monitor->start(sink);
        QTRY_VERIFY_WITH_TIMEOUT(sink.count > 96'000, 15'000);
        QCOMPARE(monitor->health(), SourceHealth::good);
        monitor->stop();
        QVERIFY2(sink.db() < -25.5 && sink.db() > -29, qPrintable(QString::number(sink.db()))); // silence before it
        const std::uint64_t count = sink.count;
        QTest::qWait(100);
        QCOMPARE(sink.count.load(), count);
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
