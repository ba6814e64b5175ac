// The spectrum against closed forms: where a tone lies and how strong, what noise adds up to, at any device's rate.
#include "common/signal/spectrum.h"
#include "tests/common/signal/synthetic.h"

#include <QtTest>

#include <complex>
#include <numeric>

using namespace vh;
using namespace vh::test;

namespace
{
std::vector<float> lastSpectrum(const Samples& sound, int rateHz)
{
    Spectrum spectrum(rateHz);
    const auto frame = static_cast<std::size_t>(rateHz / 100);
    std::vector<float> bins;
    for (std::size_t at = 0; at + frame <= sound.size(); at += frame) {
        const auto power = spectrum.push(std::span(sound).subspan(at, frame));
        bins.assign(power.begin(), power.end());
    }
    return bins;
}
double sumDb(const std::vector<float>& bins)
{
    return 10 * std::log10(std::accumulate(bins.begin(), bins.end(), 0.0));
}
} // namespace

class TestSpectrum : public QObject
{
    Q_OBJECT
private slots:
    void aToneLiesInItsBinWithItsMeanSquare_data()
    {
        QTest::addColumn<int>("rateHz");
        for (const int rate : {16'000, 48'000})
            QTest::addRow("%d", rate) << rate;
    }
    void aToneLiesInItsBinWithItsMeanSquare()
    {
        QFETCH(int, rateHz);
        for (const double hz : {250.0, 1000.0, 3125.0}) {
            const auto bins = lastSpectrum(sine(hz, 0.3, -20, rateHz), rateHz);
            const auto peak = std::max_element(bins.begin(), bins.end()) - bins.begin();
            QCOMPARE(static_cast<double>(peak) * Spectrum(rateHz).hzPerBin(), hz);
            QVERIFY2(std::abs(sumDb(bins) + 20) < (rateHz == 16'000 ? 0.1 : 0.3), qPrintable(QString::number(sumDb(bins))));
        }
    }

    // The definition of the discrete Fourier transform, term by term, on one frame of noise under the same window.
    void itIsTheDiscreteFourierTransform()
    {
        Samples sound(640);
        Dice dice(3);
        for (float& sample : sound)
            sample = static_cast<float>(0.1 * dice.normal());
        const auto bins = lastSpectrum(sound, 16'000);
        constexpr std::size_t kSize = Spectrum::kSize;
        const std::span<const float> last = std::span(sound).last(kSize);
        double energy = 0;
        for (std::size_t i = 0; i < kSize; ++i)
            energy += std::pow(std::sin(std::numbers::pi * (static_cast<double>(i) + 0.5) / kSize), 4);
        for (const std::size_t k : {1, 2, 63, 64, 200, 255}) {
            std::complex<double> sum;
            for (std::size_t i = 0; i < kSize; ++i) {
                const double window = std::pow(std::sin(std::numbers::pi * (static_cast<double>(i) + 0.5) / kSize), 2);
                sum += window * last[i] *
                       std::polar(1.0, -2 * std::numbers::pi * static_cast<double>(k * i % kSize) / kSize);
            }
            const double expected = std::norm(sum) * 2 / (energy * kSize);
            QVERIFY(std::abs(bins[k] - expected) < 1e-4 * expected + 1e-10);
        }
    }

    // 10 lg of 8000 Hz out of 24 000: what lies above is not folded back. The filter takes its share near the edge.
    void whatLiesAboveIsNotFoldedBack()
    {
        const auto high = lastSpectrum(sine(12'000, 0.3, -20, 48'000), 48'000);
        QVERIFY2(sumDb(high) < -30, qPrintable(QString::number(sumDb(high))));
        const auto low = lastSpectrum(sine(4000, 0.3, -20, 48'000), 48'000);
        QVERIFY2(std::abs(sumDb(low) + 20) < 1, qPrintable(QString::number(sumDb(low)))); // the filter before it
    }

    void silenceIsNothing()
    {
        for (const float bin : lastSpectrum(silence(0.3, 16'000), 16'000))
            QCOMPARE(bin, 0.0F);
    }
};

QTEST_APPLESS_MAIN(TestSpectrum)
#include "test_spectrum.moc"
