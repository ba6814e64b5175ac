// A voice on its way out: from a file by hand, from a microphone that is pulled out, with a bell and a recording.
#include "app/sound/ears.h"
#include "app/sound/talk.h"
#include "common/signal/meter.h"
#include "common/sound/opus_codec.h"
#include "tests/app/sound/desk.h"
#include "tests/app/sound/tone_file.h"

#include <QSignalSpy>
#include <QTemporaryDir>
#include <QtTest>

using namespace vh;
using namespace vh::sound;
using namespace std::chrono_literals;

namespace
{

/// What arrives, decoded.
struct Listening {
    std::vector<std::uint64_t> counts;
    std::vector<float> levels; ///< mean square of each frame
    VoiceDecoder decoder;

    Talk::Send send()
    {
        return [this](const wire::SoundHead& head, std::span<const std::uint8_t> payload) {
            std::array<float, kSoundFrame> frame{};
            decoder.decode(payload, frame);
            float sum = 0;
            for (const float sample : frame)
                sum += sample * sample;
            counts.push_back(head.firstSample);
            levels.push_back(sum / kSoundFrame);
        };
    }
    [[nodiscard]] double loudestDb() const
    {
        return 10 * std::log10(1e-12 + static_cast<double>(*std::max_element(levels.begin(), levels.end())));
    }
};

} // namespace

class TestTalk : public QObject
{
    Q_OBJECT
    QTemporaryDir m_folder;
    QString m_tone;
    QString m_quiet;
    QString m_song;

private slots:
    void initTestCase()
    {
        m_tone = m_folder.filePath("tone.wav");
        m_quiet = m_folder.filePath("quiet.wav");
        m_song = m_folder.filePath("song.wav");
        QVERIFY(writeTone(m_tone, {.seconds = 20, .dbfs = -26, .hz = 400}));
        QVERIFY(writeTone(m_quiet, {.seconds = 60, .dbfs = -110}));
        QVERIFY(writeTone(m_song, {.seconds = 2, .dbfs = -20, .rateHz = 44'100, .channels = 2, .hz = 300}));
    }

    void theOpenMicrophoneIsMeteredAndSentAtOnce()
    {
        Ears ears(makeNullBackend());
        Talk talk(ears, 77);
        QCOMPARE(talk.stream(), 77U);
        Listening listening;
        ears.start(DeviceChoice::fileOf(m_tone, Pace::byHand));
        talk.begin(listening.send());
        ears.advance(2s);
        QTRY_VERIFY(listening.counts.size() >= 98);
        for (std::size_t i = 1; i < listening.counts.size(); ++i)
            QCOMPARE(listening.counts[i] - listening.counts[i - 1], std::uint64_t{kSoundFrame});
        QVERIFY(std::abs(listening.loudestDb() - -26) < 1.5); // the codec's own, and a frame is not a whole period
        QCOMPARE(ears.snapshot().frameCount, std::uint64_t{200 - Meter::kDelayFrames});
        QCOMPARE(talk.droppedFrames(), std::uint64_t{0});
    }

    void nothingIsSentBeforeBeginAndTheCountGoesOnMeanwhile()
    {
        Ears ears(makeNullBackend());
        Talk talk(ears, 1);
        Listening listening;
        ears.start(DeviceChoice::fileOf(m_tone, Pace::byHand));
        ears.advance(1s); // the mic check
        talk.begin(listening.send());
        ears.advance(200ms);
        QTRY_VERIFY(listening.counts.size() >= 8);
        QCOMPARE(listening.counts.front(), std::uint64_t{48'000});
        talk.end();
        const std::size_t had = listening.counts.size();
        ears.advance(1s);
        talk.begin(listening.send());
        ears.advance(200ms);
        QTRY_VERIFY(listening.counts.size() > had);
        QVERIFY(listening.counts[had] >= 48'000 * 2);
    }

    void mutedNothingIsSentAndTheCountGoesOn()
    {
        Ears ears(makeNullBackend());
        Talk talk(ears, 1);
        Listening listening;
        ears.start(DeviceChoice::fileOf(m_tone, Pace::byHand));
        talk.begin(listening.send());
        ears.advance(200ms);
        talk.setMuted(true);
        QVERIFY(talk.muted());
        ears.advance(1s);
        talk.setMuted(false);
        ears.advance(400ms);
        QTRY_VERIFY(!listening.counts.empty() && listening.counts.back() >= 48'000 * 3 / 2);
        QVERIFY(listening.counts.size() < 40); // of 80
    }

    void theBellRingsButNotInYours()
    {
        Ears ears(makeNullBackend());
        Talk talk(ears, 1);
        Listening listening;
        ears.start(DeviceChoice::fileOf(m_quiet, Pace::byHand));
        talk.begin(listening.send());
        talk.setYours(true);
        talk.ring();
        ears.advance(1s);
        QTRY_VERIFY(listening.levels.size() >= 48);
        QVERIFY(listening.loudestDb() < -70);
        talk.setYours(false);
        ears.advance(1s);
        QTRY_VERIFY(listening.levels.size() >= 98);
        QVERIFY(listening.loudestDb() < -70); // not struck later
        talk.ring();
        ears.advance(1s);
        QTRY_VERIFY(listening.levels.size() >= 148);
        QVERIFY(listening.loudestDb() > -40);
    }

    void aRecordingIsPlayedToItsEndOrStopped()
    {
        Ears ears(makeNullBackend());
        Talk talk(ears, 1);
        Listening listening;
        QSignalSpy ended(&talk, &Talk::recordingEnded);
        ears.start(DeviceChoice::fileOf(m_quiet, Pace::byHand));
        talk.begin(listening.send());
        const auto length = talk.loadRecording(m_song);
        QVERIFY(length.has_value());
        QCOMPARE(length->count(), 2000);
        talk.playRecording();
        QVERIFY(talk.recordingPlays());
        ears.advance(1s);
        QTRY_VERIFY(listening.levels.size() >= 48);
        QVERIFY(std::abs(listening.loudestDb() - -20) < 1.5);
        QCOMPARE(ended.count(), 0);
        ears.advance(1500ms);
        QTRY_COMPARE(ended.count(), 1);
        QVERIFY(!talk.recordingPlays());

        talk.playRecording(); // from its beginning
        ears.advance(500ms);
        talk.stopRecording();
        QVERIFY(!talk.recordingPlays());
        QTRY_VERIFY(listening.levels.size() >= 148);
        ears.advance(100ms);
        QTRY_VERIFY(listening.levels.size() >= 153);
        listening.levels.clear();
        ears.advance(500ms);
        QTRY_VERIFY(listening.levels.size() >= 23);
        QVERIFY(listening.loudestDb() < -70);
        QCOMPARE(ended.count(), 1);
    }

    void aRecordingWaitsInYours()
    {
        Ears ears(makeNullBackend());
        Talk talk(ears, 1);
        Listening listening;
        QSignalSpy ended(&talk, &Talk::recordingEnded);
        ears.start(DeviceChoice::fileOf(m_quiet, Pace::byHand));
        talk.begin(listening.send());
        QVERIFY(talk.loadRecording(m_song).has_value());
        talk.setYours(true);
        ears.advance(100ms);
        talk.playRecording();
        ears.advance(3s);
        QTRY_VERIFY(listening.levels.size() >= 150);
        QVERIFY(listening.loudestDb() < -70);
        QVERIFY(talk.recordingPlays());
        talk.setYours(false);
        ears.advance(1s);
        QTRY_VERIFY(listening.levels.size() >= 200);
        QVERIFY(listening.loudestDb() > -22);
    }

    void filesThatAreNoRecordingSayWhy()
    {
        Ears ears(makeNullBackend());
        Talk talk(ears, 1);
        const QString text = m_folder.filePath("letter.wav");
        QFile file(text);
        QVERIFY(file.open(QIODevice::WriteOnly));
        file.write("Dear all, tomorrow we begin at ten.");
        file.close();
        QCOMPARE(talk.loadRecording(text).error().code, std::string("sound-file-unreadable"));
        QCOMPARE(talk.loadRecording(m_folder.filePath("none.wav")).error().code, std::string("sound-file-unreadable"));
        const QString empty = m_folder.filePath("empty.wav");
        QVERIFY(writeTone(empty, {.seconds = 0}));
        QCOMPARE(talk.loadRecording(empty).error().code, std::string("sound-file-empty"));
        const QString slow = m_folder.filePath("slow.wav");
        QVERIFY(writeTone(slow, {.seconds = 1, .rateHz = 4000}));
        QCOMPARE(talk.loadRecording(slow).error().code, std::string("sound-file-rate"));
        const QString hours = m_folder.filePath("hours.wav");
        QVERIFY(writeTone(hours, {.seconds = 1201, .rateHz = 8000}));
        QCOMPARE(talk.loadRecording(hours).error().code, std::string("recording-too-long"));
        talk.playRecording(); // none was loaded
        QVERIFY(!talk.recordingPlays());
    }

    void aMicrophonePulledOutWhileSendingGoesOnWithTheCountInTime()
    {
        Desk desk;
        desk.plugged = {kBuiltIn, kHeadset};
        Ears ears(std::make_unique<DeskBackend>(desk));
        ears.setWhenGone(Ears::WhenGone::takeStandard);
        Talk talk(ears, 1);
        Listening listening;
        ears.start(DeviceChoice::deviceOf("headset"));
        talk.begin(listening.send());
        QTRY_VERIFY(listening.counts.size() > 10);
        desk.plugged = {kBuiltIn};
        QTRY_COMPARE(ears.state(), EarsState::deviceLost);
        const auto lost = std::chrono::steady_clock::now();
        QTest::qWait(50); // what was on its way arrives
        const std::size_t had = listening.counts.size();
        QTRY_VERIFY(listening.counts.size() > had);
        const auto gone = std::chrono::steady_clock::now() - lost;
        QCOMPARE(ears.openDevice().id, kBuiltIn.id); // her voice matters more than which microphone
        const std::uint64_t jump = listening.counts[had] - listening.counts[had - 1];
        QVERIFY(jump >= kSoundFrame); // the other one is taken at once
        QVERIFY(jump <=
                48 * static_cast<std::uint64_t>(std::chrono::ceil<std::chrono::milliseconds>(gone).count()) + 48'000);
        QCOMPARE(listening.counts[had] % kSoundFrame, std::uint64_t{0});
    }

    void aTalkThatIsGoneIsNotHeardAnyMore()
    {
        Ears ears(makeNullBackend());
        Listening listening;
        auto talk = std::make_unique<Talk>(ears, 1);
        ears.start(DeviceChoice::fileOf(m_tone, Pace::byHand));
        talk->begin(listening.send());
        talk.reset();
        ears.advance(1s); // its line is still open
        QVERIFY(listening.counts.empty());
        QVERIFY(Talk::newStream() != 0);
    }
};

QTEST_GUILESS_MAIN(TestTalk)
#include "test_talk.moc"
