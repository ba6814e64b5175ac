// The path of the samples: nothing allocated, nothing torn, nothing lost unseen.
#include "app/sound/frame_queue.h"
#include "app/sound/snapshot_box.h"
#include "app/sound/sound_line.h"
#include "app/sound/to_mono.h"
#include "common/signal/meter.h"

#include <QtTest>

#include <cstdlib>
#include <new>
#include <numbers>
#include <thread>

namespace
{

thread_local std::size_t allocations = 0;

} // namespace

// Counts what this program's threads allocate; the pairs below forward to malloc and free.
void* operator new(std::size_t size)
{
    ++allocations;
    if (void* memory = std::malloc(size))
        return memory;
    throw std::bad_alloc();
}
void operator delete(void* memory) noexcept
{
    std::free(memory);
}
void operator delete(void* memory, std::size_t /*size*/) noexcept
{
    std::free(memory);
}

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

} // namespace

class TestSoundLine : public QObject
{
    Q_OBJECT
private slots:
    void takingSamplesAllocatesNothing_data()
    {
        QTest::addColumn<int>("rateHz");
        QTest::addColumn<bool>("atOnce");
        QTest::newRow("the callback, 48 kHz") << 48'000 << false;
        QTest::newRow("the callback, 44.1 kHz") << 44'100 << false;
        QTest::newRow("callback, resampler and meter, 48 kHz") << 48'000 << true;
        QTest::newRow("callback, resampler and meter, 44.1 kHz") << 44'100 << true;
    }
    void takingSamplesAllocatesNothing()
    {
        QFETCH(int, rateHz);
        QFETCH(bool, atOnce);
        SoundLine line(rateHz, atOnce ? SoundLine::Work::atOnce : SoundLine::Work::onWorker);
        const auto samples = tone(4800, rateHz);
        const std::size_t before = allocations;
        for (int i = 0; i < 50; ++i)
            line.take(samples);
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
        QCOMPARE(results[0].size(), 100 - Meter::kDelayFrames);
        QVERIFY(results[0] == results[1]);
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
        constexpr std::uint64_t kOut = 5000 - Meter::kDelayFrames;
        QCOMPARE(line.droppedFrames(), kOut - FrameQueue::kCapacity);
        QCOMPARE(line.snapshot().frameCount, kOut);
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
