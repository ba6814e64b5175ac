// The transform against its definition, term by term in double precision, and against itself there and back.
#include "common/signal/fourier.h"
#include "tests/common/allocation_counter.h"
#include "tests/common/signal/synthetic.h"

#include <QtTest>

#include <numbers>

using namespace vh;
using namespace vh::test;

namespace
{
using Bins = std::vector<std::complex<float>>;

Samples noiseOf(std::size_t size)
{
    Samples samples(size);
    Dice dice(7);
    for (float& sample : samples)
        sample = static_cast<float>(0.3 * dice.normal());
    return samples;
}

Bins binsOf(const Samples& samples)
{
    Bins bins(samples.size() / 2 + 1);
    Fourier(samples.size(), Fourier::Way::forward).forward(samples, bins);
    return bins;
}
} // namespace

class TestFourier : public QObject
{
    Q_OBJECT
private slots:
    void itIsTheSumOfItsDefinition_data()
    {
        QTest::addColumn<int>("size");
        for (const int size : {4, 64, 480, 512, 960})
            QTest::addRow("%d", size) << size;
    }
    void itIsTheSumOfItsDefinition()
    {
        QFETCH(int, size);
        const Samples samples = noiseOf(static_cast<std::size_t>(size));
        const Bins bins = binsOf(samples);
        for (std::size_t k = 0; k < bins.size(); ++k) {
            std::complex<double> sum;
            for (std::size_t n = 0; n < samples.size(); ++n)
                sum += static_cast<double>(samples[n]) *
                       std::polar(1.0, -2 * std::numbers::pi * static_cast<double>(k * n % samples.size()) / size);
            QVERIFY(std::abs(std::complex<double>(bins[k]) - sum) < 1e-6 * size);
        }
    }

    void thereAndBackMultipliesByTheSize()
    {
        constexpr std::size_t kSize = 4096;
        const Samples samples = noiseOf(kSize);
        Samples again(kSize);
        Fourier(kSize, Fourier::Way::back).back(binsOf(samples), again);
        for (std::size_t n = 0; n < kSize; ++n)
            QVERIFY(std::abs(again[n] / kSize - samples[n]) < 1e-5F);
    }

    void onceBuiltItTakesNothingFromTheHeap()
    {
        Samples samples = noiseOf(480);
        Bins bins(241);
        Fourier there(480, Fourier::Way::forward);
        Fourier back(480, Fourier::Way::back);
        const AllocationCounter counter;
        there.forward(samples, bins);
        back.back(bins, samples);
        const auto taken = counter.count();
        QCOMPARE(taken, std::uint64_t(0));
    }
};

QTEST_APPLESS_MAIN(TestFourier)
#include "test_fourier.moc"
