#include "common/signal/spsc_ring.h"

#include <QtTest>

#include <thread>

using namespace vh;

namespace
{
/// Sample number n carries n; exact in float up to 2^24.
constexpr std::uint64_t kStamps = 1U << 24U;

void stamp(std::span<float> samples, std::uint64_t first)
{
    for (float& sample : samples)
        sample = static_cast<float>(first++ % kStamps);
}
bool stampedFrom(std::span<const float> samples, std::uint64_t first)
{
    return std::all_of(samples.begin(), samples.end(),
                       [&](float sample) { return sample == static_cast<float>(first++ % kStamps); });
}
} // namespace

class TestSpscRing : public QObject
{
    Q_OBJECT
private slots:
    void awkwardSizesWrapWithoutLoss()
    {
        for (const std::size_t capacity : {1, 2, 3, 64, 1000}) {
            SpscRing ring(capacity);
            QVERIFY(ring.capacity() >= capacity);
            std::vector<float> buffer(ring.capacity() + 5);
            std::uint64_t written = 0, read = 0;
            for (std::size_t round = 0; round < 3000; ++round) {
                const std::span in(buffer.data(), (round * 17) % buffer.size());
                stamp(in, written);
                written += ring.write(in);
                QVERIFY(written - read <= ring.capacity());
                const std::span out(buffer.data(), (round * 11) % buffer.size());
                const std::size_t count = ring.read(out);
                QVERIFY(stampedFrom(out.first(count), read));
                read += count;
            }
            QVERIFY2(read > ring.capacity() * 100, qPrintable(QString("%1 of %2").arg(read).arg(capacity)));
        }
    }

    void aFullRingTakesWhatFitsAndCountsTheRest()
    {
        SpscRing ring(8);
        std::vector<float> samples(13);
        stamp(samples, 0);
        QCOMPARE(ring.write(samples), std::size_t(8));
        QCOMPARE(ring.write(samples), std::size_t(0));
        QCOMPARE(ring.lost(), std::uint64_t(5 + 13));
        std::vector<float> out(20);
        QCOMPARE(ring.read(out), std::size_t(8));
        QVERIFY(stampedFrom(std::span(out).first(8), 0));
        QCOMPARE(ring.read(out), std::size_t(0));
        QCOMPARE(ring.write(samples), std::size_t(8));
    }

    void nothingInNothingOut()
    {
        SpscRing ring(4);
        QCOMPARE(ring.write({}), std::size_t(0));
        QCOMPARE(ring.read({}), std::size_t(0));
        QCOMPARE(ring.lost(), std::uint64_t(0));
    }

    // Two threads, sizes that never divide each other; every sample arrives once, whole and in order.
    void twoThreadsLoseAndTearNothing()
    {
        constexpr std::uint64_t kTotal = 3'000'000;
        SpscRing ring(1021);
        std::thread writer([&ring] {
            std::vector<float> block(509);
            std::uint64_t next = 0;
            for (std::size_t size = 1; next < kTotal; size = size % 509 + 1) {
                std::span<float> samples(block.data(), std::min<std::uint64_t>(size, kTotal - next));
                stamp(samples, next);
                next += samples.size();
                while (!samples.empty()) {
                    const std::size_t taken = ring.write(samples);
                    samples = samples.subspan(taken);
                    if (taken == 0)
                        std::this_thread::yield();
                }
            }
        });
        std::vector<float> block(613);
        std::uint64_t next = 0;
        bool whole = true;
        for (std::size_t size = 1; next < kTotal; size = size % 613 + 1) {
            const std::size_t count = ring.read(std::span(block.data(), size));
            whole = whole && stampedFrom(std::span(block.data(), count), next);
            next += count;
            if (count == 0)
                std::this_thread::yield();
        }
        writer.join();
        QVERIFY(whole);
        QCOMPARE(next, kTotal);
        QCOMPARE(ring.read(block), std::size_t(0));
    }
};

QTEST_APPLESS_MAIN(TestSpscRing)
#include "test_spsc_ring.moc"
