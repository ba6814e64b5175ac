// What is played, on its way to the microphone's line.
#include "app/sound/far_end.h"
#include "tests/app/sound/count_allocations.h"

#include <QtTest>

#include <algorithm>
#include <thread>
#include <vector>

using namespace vh::sound;

namespace
{

/// 1, 2, 3 ... from `first` on: every sample says which it is.
std::vector<float> counting(std::size_t first, std::size_t count)
{
    std::vector<float> samples(count);
    for (std::size_t i = 0; i < count; ++i)
        samples[i] = static_cast<float>(first + i);
    return samples;
}

std::vector<float> readFrom(FarEnd& far, std::size_t count)
{
    std::vector<float> samples(count, -1.0F);
    far.read(samples);
    return samples;
}

bool silent(const std::vector<float>& samples)
{
    return std::all_of(samples.begin(), samples.end(), [](float sample) { return sample == 0; });
}

} // namespace

class TestFarEnd : public QObject
{
    Q_OBJECT
private slots:
    void comesOutSampleForSampleOnceAStockLiesThere()
    {
        FarEnd far;
        far.begin();
        far.hand(counting(1, 480));
        QVERIFY(silent(readFrom(far, 480))); // just enough is not enough: the next piece may be late
        far.hand(counting(481, 480));
        QVERIFY(readFrom(far, 480) == counting(1, 480));
        far.hand(counting(961, 480));
        QVERIFY(readFrom(far, 480) == counting(481, 480));
        QCOMPARE(far.ranDry(), std::uint64_t{0});
    }

    void dryIsZerosAndCountedOnceAndThenAStockIsKept()
    {
        FarEnd far;
        far.begin();
        far.hand(counting(1, 1440));
        (void)readFrom(far, 960);
        const auto torn = readFrom(far, 960);
        QVERIFY(std::equal(torn.begin(), torn.begin() + 480, counting(961, 480).begin()));
        QVERIFY(silent({torn.begin() + 480, torn.end()}));
        QVERIFY(silent(readFrom(far, 480))); // a pause in what is played is no news
        QCOMPARE(far.ranDry(), std::uint64_t{1});
        far.hand(counting(2000, 960));
        QVERIFY(readFrom(far, 480) == counting(2000, 480));
    }

    void whatLayThereBeforeTheMicrophoneOpenedIsGone()
    {
        FarEnd far;
        for (int i = 0; i < 100; ++i)
            far.hand(counting(1, 4800)); // far more than it holds
        far.begin();
        QVERIFY(silent(readFrom(far, 480)));
        far.hand(counting(7000, 960));
        QVERIFY(readFrom(far, 480) == counting(7000, 480));
    }

    void aStockThatNeverFallsIsCutBack()
    {
        FarEnd far;
        far.begin();
        far.hand(counting(1, 960));
        (void)readFrom(far, 480);
        far.hand(counting(961, 4800)); // 100 ms too much: the microphone lost as many
        std::size_t next = 5761;
        for (std::size_t read = 480; read <= 2 * FarEnd::kWindow;
             read += 480, next += 480) { // the first has its beginning
            far.hand(counting(next, 480));
            (void)readFrom(far, 480);
        }
        QCOMPARE(far.cutOut(), std::uint64_t{5280 - FarEnd::kStock}); // all that was too much, at once
        far.hand(counting(next, 480));
        const auto after = readFrom(far, 480);
        QCOMPARE(static_cast<float>(next + 479) - after.back(), static_cast<float>(FarEnd::kStock)); // what is left
        QCOMPARE(far.ranDry(), std::uint64_t{0});
    }

    void anOutputThatFillsItsBufferAtOnceDoesNotHoldUsBack()
    {
        FarEnd far;
        far.begin();
        far.hand(counting(1, 4800));
        const auto first = readFrom(far, 480);
        QCOMPARE(first.front(), static_cast<float>(4800 - 480 - FarEnd::kStock + 1));
    }

    void withHeadphonesItIsAllZerosAndGoesOnInStep()
    {
        FarEnd far;
        far.begin();
        far.hand(counting(1, 960));
        far.setLeaks(false);
        QVERIFY(silent(readFrom(far, 480)));
        far.setLeaks(true);
        far.hand(counting(961, 480));
        QVERIFY(readFrom(far, 480) == counting(481, 480));
    }

    void neitherSideAllocates()
    {
        FarEnd far;
        far.begin();
        const auto samples = counting(1, 960);
        std::vector<float> into(480);
        const std::size_t before = allocations;
        for (int i = 0; i < 500; ++i) { // dry, full and cut back
            far.hand(samples);
            far.read(into);
        }
        QCOMPARE(allocations - before, std::size_t{0});
        QVERIFY(far.cutOut() > 0);
        std::make_unique<int>(1); // the counter does count
        QVERIFY(allocations > before);
    }

    void twoThreadsLoseNothingUnseen()
    {
        FarEnd far;
        far.begin();
        constexpr std::size_t kCount = 2'000'000;
        std::atomic<bool> done{false};
        std::thread writer([&] {
            for (std::size_t first = 1; first < kCount; first += 480)
                far.hand(counting(first % 1'000'000, 480));
            done = true;
        });
        bool inOrder = true;
        float last = 0;
        std::size_t heard = 0;
        const auto read = [&] {
            for (const float sample : readFrom(far, 441)) {
                if (sample == 0)
                    continue;
                inOrder = inOrder && (sample > last || last - sample > 400'000); // it counts round
                last = sample;
                ++heard;
            }
        };
        while (!done)
            read();
        writer.join();
        read(); // where this thread did not get its turn before
        QVERIFY(inOrder);
        QVERIFY(heard > 0);
    }
};

QTEST_APPLESS_MAIN(TestFarEnd)
#include "test_far_end.moc"
