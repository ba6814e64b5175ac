// Ears from files and from devices that a test plugs in and out.
#include "app/sound/ears.h"
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

std::vector<VoiceFrame> drained(Ears& ears)
{
    std::vector<VoiceFrame> frames;
    ears.drainFrames([&](const VoiceFrame& frame) { frames.push_back(frame); });
    return frames;
}

} // namespace

class TestEars : public QObject
{
    Q_OBJECT
    QTemporaryDir m_folder;
    QString toneFile(const Tone& tone)
    {
        const QString path = m_folder.filePath(QStringLiteral("tone-%1-%2.wav").arg(tone.rateHz).arg(tone.channels));
        return writeTone(path, tone) ? path : QString();
    }

private slots:
    void aFileByHandIsHeardAtItsLevelAtEveryRate_data()
    {
        QTest::addColumn<int>("rateHz");
        QTest::addColumn<int>("channels");
        QTest::newRow("48 kHz mono") << 48'000 << 1;
        QTest::newRow("44.1 kHz mono") << 44'100 << 1;
        QTest::newRow("16 kHz mono") << 16'000 << 1;
        QTest::newRow("96 kHz stereo") << 96'000 << 2;
    }
    void aFileByHandIsHeardAtItsLevelAtEveryRate()
    {
        QFETCH(int, rateHz);
        QFETCH(int, channels);
        const QString path = toneFile({.seconds = 3, .dbfs = -26, .rateHz = rateHz, .channels = channels});
        QVERIFY(!path.isEmpty());
        Ears ears(makeNullBackend());
        ears.start(DeviceChoice::fileOf(path, Pace::byHand));
        ears.advance(2s);
        QCOMPARE(ears.state(), EarsState::hearing);
        const auto frames = drained(ears);
        QVERIFY(frames.size() >= 198 && frames.size() <= 200); // a resampler holds a little back
        // 0.1 dB: the promise; settled after 0.2 s of the A filter's slowest pole (20.6 Hz).
        const double level = leqOf(frames, 20);
        QVERIFY2(std::abs(level - -26.0) <= 0.1, qPrintable(QString::number(level)));
        QCOMPARE(ears.snapshot().frameCount, frames.size());
        QCOMPARE(ears.snapshot().frame.meanSquareA, frames.back().meanSquareA);
    }

    void byHandTheSameStepsGiveTheSameFrames()
    {
        const QString path = toneFile({});
        std::vector<float> runs[2];
        for (auto& run : runs) {
            Ears ears(makeNullBackend());
            ears.start(DeviceChoice::fileOf(path, Pace::byHand));
            for (int i = 0; i < 100; ++i)
                ears.advance(7ms);
            for (const VoiceFrame& frame : drained(ears))
                run.push_back(frame.meanSquareA);
        }
        QCOMPARE(runs[0].size(), std::size_t{70});
        QVERIFY(runs[0] == runs[1]);
    }

    void byHandTheFileEndsAndSaysSoAndItsLastFramesAreKept()
    {
        const QString path = toneFile({.seconds = 1});
        Ears ears(makeNullBackend());
        QSignalSpy states(&ears, &Ears::stateChanged);
        ears.start(DeviceChoice::fileOf(path, Pace::byHand));
        ears.advance(5s);
        QCOMPARE(ears.state(), EarsState::fileEnded);
        QCOMPARE(drained(ears).size(), std::size_t{100});
        QCOMPARE(drained(ears).size(), std::size_t{0});
        QCOMPARE(states.last().first().value<EarsState>(), EarsState::fileEnded);
    }

    void aFileAtRealTimePaceIsHeardWholeAtItsLevelAndEnds()
    {
        const QString path = toneFile({.seconds = 1, .dbfs = -30});
        Ears ears(makeNullBackend());
        ears.start(DeviceChoice::fileOf(path));
        QTRY_COMPARE_WITH_TIMEOUT(ears.state(), EarsState::fileEnded, 20'000);
        const auto frames = drained(ears);
        QCOMPARE(frames.size(), std::size_t{100});
        const double level = leqOf(frames, 20);
        QVERIFY2(std::abs(level - -30.0) <= 0.1, qPrintable(QString::number(level)));
        QCOMPARE(ears.droppedFrames(), std::uint64_t{0});
    }

    void aFileThatIsNoSoundIsSaid()
    {
        const QString path = m_folder.filePath("letter.wav");
        QFile file(path);
        QVERIFY(file.open(QIODevice::WriteOnly));
        file.write("Dear Anna, no sound in here.");
        file.close();
        Ears ears(makeNullBackend());
        ears.start(DeviceChoice::fileOf(path));
        QCOMPARE(ears.state(), EarsState::fileBad);
        ears.start(DeviceChoice::fileOf(m_folder.filePath("absent.wav")));
        QCOMPARE(ears.state(), EarsState::fileBad);
    }

    void aMachineWithoutSoundSaysSo()
    {
        Ears ears(makeNullBackend());
        ears.start(DeviceChoice::standardDevice());
        QCOMPARE(ears.state(), EarsState::noDevice);
        QVERIFY(drained(ears).empty());
        ears.stop();
        QCOMPARE(ears.state(), EarsState::off);
    }

    void aDeviceIsHeardAtItsLevel()
    {
        Desk desk;
        desk.plugged = {kHeadset, kBuiltIn};
        Ears ears(std::make_unique<DeskBackend>(desk));
        ears.start(DeviceChoice::standardDevice());
        QTRY_COMPARE(ears.state(), EarsState::hearing);
        QCOMPARE(desk.lastOpened, kBuiltIn.id); // the system's standard one, not the first
        QCOMPARE(ears.openDevice(), kBuiltIn);
        std::vector<VoiceFrame> frames;
        QTRY_VERIFY((ears.drainFrames([&](const VoiceFrame& f) { frames.push_back(f); }), frames.size() > 200));
        QVERIFY(std::abs(leqOf(frames, 20) - -26.0) <= 0.1);
    }

    void stopReleasesTheMicrophone()
    {
        Desk desk;
        desk.plugged = {kBuiltIn};
        Ears ears(std::make_unique<DeskBackend>(desk));
        ears.start(DeviceChoice::standardDevice());
        QTRY_COMPARE(ears.state(), EarsState::hearing);
        QCOMPARE(desk.openStreams.load(), 1);
        ears.stop();
        QCOMPARE(desk.openStreams.load(), 0);
        QCOMPARE(ears.state(), EarsState::off);
        QVERIFY(ears.openDevice().id.isEmpty());
        QVERIFY(!ears.inputVolume());
    }

    void choosingAnotherReleasesTheFirst()
    {
        Desk desk;
        desk.plugged = {kBuiltIn, kHeadset};
        Ears ears(std::make_unique<DeskBackend>(desk));
        ears.start(DeviceChoice::standardDevice());
        QTRY_COMPARE(ears.state(), EarsState::hearing);
        ears.start(DeviceChoice::deviceOf("headset"));
        QTRY_COMPARE(ears.state(), EarsState::hearing);
        QCOMPARE(ears.openDevice(), kHeadset);
        QCOMPARE(desk.openStreams.load(), 1);
    }

    void destroyingReleasesTheMicrophone()
    {
        Desk desk;
        desk.plugged = {kBuiltIn};
        {
            Ears ears(std::make_unique<DeskBackend>(desk));
            ears.start(DeviceChoice::standardDevice());
            QTRY_COMPARE(ears.state(), EarsState::hearing);
        }
        QCOMPARE(desk.openStreams.load(), 0);
    }

    void aDeviceUnpluggedIsNoticedAndHeardAgainWhenBack()
    {
        Desk desk;
        desk.plugged = {kBuiltIn};
        Ears ears(std::make_unique<DeskBackend>(desk));
        QSignalSpy devices(&ears, &Ears::devicesChanged);
        ears.start(DeviceChoice::standardDevice());
        QTRY_COMPARE(ears.state(), EarsState::hearing);
        const auto before = ears.snapshot().frameCount;
        desk.plugged.clear();
        QTRY_COMPARE(ears.state(), EarsState::deviceLost);
        QCOMPARE(desk.openStreams.load(), 0);
        QCOMPARE(devices.count(), 1);
        desk.plugged = {kBuiltIn};
        QTRY_COMPARE(ears.state(), EarsState::hearing);
        QTRY_VERIFY(ears.snapshot().frameCount > before); // counted on, not begun anew
    }

    void aLineThatFallsSilentIsNoticed()
    {
        Desk desk;
        desk.plugged = {kBuiltIn};
        Ears ears(std::make_unique<DeskBackend>(desk));
        ears.start(DeviceChoice::standardDevice());
        QTRY_COMPARE(ears.state(), EarsState::hearing);
        desk.flowing = false;
        QTRY_COMPARE(ears.state(), EarsState::deviceLost);
        desk.flowing = true;
        QTRY_COMPARE(ears.state(), EarsState::hearing);
    }

    void aChosenDeviceThatIsGoneIsNotReplacedBehindThePersonsBack()
    {
        Desk desk;
        desk.plugged = {kBuiltIn, kHeadset};
        Ears ears(std::make_unique<DeskBackend>(desk));
        ears.start(DeviceChoice::deviceOf("headset"));
        QTRY_COMPARE(ears.state(), EarsState::hearing);
        desk.plugged = {kBuiltIn};
        QTRY_COMPARE(ears.state(), EarsState::deviceLost);
        QSignalSpy states(&ears, &Ears::stateChanged);
        desk.lastOpened.clear();
        QVERIFY(!states.wait(1500)); // longer than one new try
        QVERIFY(desk.lastOpened.isEmpty());
    }

    void aChangedVolumeIsSeen()
    {
        Desk desk;
        desk.plugged = {kBuiltIn};
        Ears ears(std::make_unique<DeskBackend>(desk));
        ears.start(DeviceChoice::standardDevice());
        QCOMPARE(ears.inputVolume(), std::optional<float>(1.0F));
        QSignalSpy changed(&ears, &Ears::inputVolumeChanged);
        desk.volume = 0.5F;
        QTRY_COMPARE(changed.count(), 1);
        QCOMPARE(ears.inputVolume(), std::optional<float>(0.5F));
    }
};

QTEST_GUILESS_MAIN(TestEars)
#include "test_ears.moc"
