// The path of the samples: nothing allocated, nothing torn, nothing lost unseen.
#include "app/sound/frame_queue.h"
#include "app/sound/snapshot_box.h"
#include "app/sound/sound_line.h"
#include "app/sound/to_mono.h"
#include "tests/app/sound/count_allocations.h"

#include <QtTest>

#include <numbers>
#include <set>
#include <thread>

using namespace vh;
using namespace vh::sound;

namespace
{

std::vector<float> tone(std::size_t count, int rateHz)
{
    std::vector<float> samples(count);
    for (std::size_t i = 0; i < count; ++i)
        samples[i] = static_cast<float>(0.1 * std::sin(2 * std::numbers::pi * 1000 * static_cast<double>(i) / rateHz));
    return samples;
}

/// Keeps what it hears, within room made before.
class Listener final : public LineListener
{
public:
    Listener()
    {
        heard.reserve(100'000);
        played.reserve(100'000);
    }
    void opened() override { ++openings; }
    void hear(std::span<const float> microphone, std::span<const float> farEnd) noexcept override
    {
        const std::size_t room = heard.capacity() - heard.size();
        const auto count = static_cast<std::ptrdiff_t>(std::min(room, microphone.size()));
        heard.insert(heard.end(), microphone.begin(), microphone.begin() + count);
        played.insert(played.end(), farEnd.begin(), farEnd.begin() + count);
    }
    int openings = 0;
    std::vector<float> heard;
    std::vector<float> played;
};

} // namespace

class TestSoundLine : public QObject
{
    Q_OBJECT
private slots:
    void takingSamplesAllocatesNothing_data()
    {
        QTest::addColumn<int>("rateHz");
        QTest::addColumn<bool>("atOnce"); // with a far end and a listener besides
        QTest::newRow("the callback, 48 kHz") << 48'000 << false;
        QTest::newRow("the callback, 44.1 kHz") << 44'100 << false;
        QTest::newRow("callback, resampler and meter, 48 kHz") << 48'000 << true;
        QTest::newRow("callback, resampler and meter, 44.1 kHz") << 44'100 << true;
    }
    void takingSamplesAllocatesNothing()
    {
        QFETCH(int, rateHz);
        QFETCH(bool, atOnce);
        const auto far = std::make_shared<FarEnd>();
        SoundLine line(rateHz, atOnce ? SoundLine::Work::atOnce : SoundLine::Work::onWorker,
                       {far, std::nullopt, {std::make_shared<Listener>()}});
        const auto samples = tone(4800, rateHz);
        const std::size_t before = allocations;
        for (int i = 0; i < 50; ++i) {
            far->hand(samples);
            line.take(samples);
        }
        QCOMPARE(allocations - before, std::size_t{0});
        std::make_unique<int>(1); // the counter does count
        QVERIFY(allocations > before);
    }

    void theWorkerGivesTheSameFramesAsDoneAtOnce()
    {
        const auto samples = tone(48'000, 48'000);
        std::vector<float> results[2];
        for (const auto work : {SoundLine::Work::atOnce, SoundLine::Work::onWorker}) {
            SoundLine line(48'000, work);
            for (std::size_t at = 0; at < samples.size(); at += 441)
                line.take(std::span<const float>(samples).subspan(at, std::min<std::size_t>(441, samples.size() - at)));
            line.finish();
            QCOMPARE(line.droppedFrames(), std::uint64_t{0});
            QCOMPARE(line.samplesTaken(), std::uint64_t{48'000});
            line.drain(
                [&](const VoiceFrame& f) { results[work == SoundLine::Work::onWorker].push_back(f.meanSquareA); });
        }
        QCOMPARE(results[0].size(), std::size_t{100});
        QVERIFY(results[0] == results[1]);
    }

    void whatIsPlayedIsReadInStepWithTheMicrophone()
    {
        const auto far = std::make_shared<FarEnd>();
        const auto listener = std::make_shared<Listener>();
        far->hand(tone(4800, 48'000)); // before the microphone opened: of no use to it
        SoundLine line(48'000, SoundLine::Work::atOnce, {far, std::nullopt, {listener}});
        std::vector<float> count(480);
        for (int piece = 0; piece < 20; ++piece) {
            for (std::size_t i = 0; i < count.size(); ++i)
                count[i] = static_cast<float>(480 * piece) + static_cast<float>(i) + 1;
            far->hand(count);
            line.take(count);
        }
        QCOMPARE(listener->openings, 1);
        QCOMPARE(listener->heard.size(), std::size_t{9600});
        QCOMPARE(listener->played.size(), std::size_t{9600});
        QCOMPARE(listener->played.front(), 0.0F); // it is not read before a stock lies there
        std::set<float> apart;
        for (std::size_t i = 0; i < listener->heard.size(); ++i) {
            if (listener->played[i] != 0)
                apart.insert(listener->heard[i] - listener->played[i]);
        }
        QVERIFY(apart == std::set<float>{480}); // one piece, and always the same
        QCOMPARE(far->ranDry(), std::uint64_t{0});
    }

    void withAMonitorTheMicrophoneIsHeldBack()
    {
        const auto far = std::make_shared<FarEnd>();
        far->setMicrophoneDelay(std::chrono::milliseconds(100));
        const auto listener = std::make_shared<Listener>();
        SoundLine line(48'000, SoundLine::Work::atOnce, {far, std::nullopt, {listener}});
        const auto samples = tone(9600, 48'000);
        line.take(samples);
        QVERIFY(std::all_of(listener->heard.begin(), listener->heard.begin() + 4800, [](float s) { return s == 0; }));
        QVERIFY(std::equal(samples.begin(), samples.begin() + 4800, listener->heard.begin() + 4800));
    }

    void withoutAFarEndTheListenerHearsThatNothingIsPlayed()
    {
        const auto listener = std::make_shared<Listener>();
        SoundLine line(44'100, SoundLine::Work::atOnce, {nullptr, std::nullopt, {listener}});
        line.take(tone(4410, 44'100));
        QVERIFY(listener->heard.size() > 4700);
        QCOMPARE(listener->played.size(), listener->heard.size());
        QVERIFY(std::all_of(listener->played.begin(), listener->played.end(), [](float s) { return s == 0; }));
    }

    void framesThatNobodyDrainsAreDroppedAndCounted()
    {
        SoundLine line(48'000, SoundLine::Work::atOnce);
        const auto second = tone(48'000, 48'000);
        for (int i = 0; i < 50; ++i)
            line.take(second);
        std::size_t kept = 0;
        line.drain([&](const VoiceFrame&) { ++kept; });
        QCOMPARE(kept, FrameQueue::kCapacity);
        QCOMPARE(line.droppedFrames(), std::uint64_t{5000 - FrameQueue::kCapacity});
        QCOMPARE(line.snapshot().frameCount, std::uint64_t{5000});
    }

    void framesKeepTheirOrderBetweenTwoThreads()
    {
        FrameQueue queue;
        constexpr int kCount = 200'000;
        std::thread writer([&] {
            for (int i = 0; i < kCount; ++i) {
                VoiceFrame frame;
                frame.meanSquareA = static_cast<float>(i);
                queue.push(frame);
            }
        });
        float last = -1;
        std::uint64_t read = 0;
        bool inOrder = true;
        while (read + queue.dropped() < kCount)
            queue.drain([&](const VoiceFrame& frame) {
                inOrder = inOrder && frame.meanSquareA > last;
                last = frame.meanSquareA;
                ++read;
            });
        writer.join();
        QVERIFY(inOrder);
        QVERIFY(read > 0);
    }

    void aSnapshotIsNeverTorn()
    {
        SnapshotBox box;
        std::atomic<bool> done{false};
        std::thread writer([&] {
            for (std::uint64_t i = 1; i <= 300'000; ++i) {
                MeterSnapshot snapshot;
                snapshot.frameCount = i;
                snapshot.frame.meanSquareA = static_cast<float>(i % 1024); // stamps that belong together
                snapshot.frame.noiseFloorDbfsA = static_cast<float>(i % 1024);
                box.store(snapshot);
            }
            done = true;
        });
        bool whole = true;
        std::uint64_t last = 0;
        while (!done) {
            const MeterSnapshot seen = box.load();
            if (seen.frameCount == 0)
                continue;
            whole = whole && seen.frame.meanSquareA == static_cast<float>(seen.frameCount % 1024) &&
                    seen.frame.noiseFloorDbfsA == seen.frame.meanSquareA && seen.frameCount >= last;
            last = seen.frameCount;
        }
        writer.join();
        QVERIFY(whole);
        QCOMPARE(box.load().frameCount, std::uint64_t{300'000});
    }

    void everyDeviceFormatBecomesMonoAtFullScaleOne()
    {
        const auto convert = [](const auto& samples, QAudioFormat::SampleFormat kind, int channels) {
            QAudioFormat format;
            format.setSampleRate(48'000);
            format.setChannelCount(channels);
            format.setSampleFormat(kind);
            std::vector<float> mono(8, -9.0F);
            const auto count = toMono(std::as_bytes(std::span(samples)), format, mono);
            mono.resize(count);
            return mono;
        };
        const std::vector<std::int16_t> int16{16384, -32768};
        QVERIFY((convert(int16, QAudioFormat::Int16, 1) == std::vector<float>{0.5F, -1.0F}));
        QVERIFY((convert(int16, QAudioFormat::Int16, 2) == std::vector<float>{-0.25F}));
        const std::vector<std::int32_t> int32{1 << 30, 0};
        QVERIFY((convert(int32, QAudioFormat::Int32, 1) == std::vector<float>{0.5F, 0.0F}));
        const std::vector<std::uint8_t> uint8{128, 192, 0};
        QVERIFY((convert(uint8, QAudioFormat::UInt8, 1) == std::vector<float>{0.0F, 0.5F, -1.0F}));
        const std::vector<float> floats{0.25F, 0.75F, 1.0F, 0.0F, 0.5F}; // the last frame is not whole
        QVERIFY((convert(floats, QAudioFormat::Float, 2) == std::vector<float>{0.5F, 0.5F}));
        QVERIFY(convert(floats, QAudioFormat::Unknown, 2).empty());
    }
};

QTEST_APPLESS_MAIN(TestSoundLine)
#include "test_sound_line.moc"
