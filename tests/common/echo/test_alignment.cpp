// Delays that are known are found, and clocks that run apart are brought together.
#include "common/echo/alignment.h"
#include "tests/common/echo/echo_sounds.h"

#include <QtTest>

using namespace vh;
using namespace vh::testing;

namespace
{
constexpr std::size_t kBlock = Alignment::kBlock;

/// A cubic through four samples (Catmull-Rom).
float between(const std::vector<float>& samples, double at)
{
    const auto i = static_cast<std::ptrdiff_t>(std::floor(at));
    if (i < 1 || i + 2 >= static_cast<std::ptrdiff_t>(samples.size()))
        return 0.0F;
    const auto t = static_cast<float>(at - static_cast<double>(i));
    const float* p = samples.data() + i;
    return p[0] +
           0.5F * t *
               (p[1] - p[-1] + t * (2 * p[-1] - 5 * p[0] + 4 * p[1] - p[2] + t * (3 * (p[0] - p[1]) + p[2] - p[-1])));
}

/// Noise without what a cubic cannot follow: the mean of four neighbours, twice.
std::vector<float> smoothNoise(std::size_t samples, std::uint32_t seed)
{
    std::vector<float> out = noise(samples, seed);
    for (int pass = 0; pass < 2; ++pass)
        for (std::size_t i = 3; i < out.size(); ++i)
            out[i - 3] = 0.25F * (out[i - 3] + out[i - 2] + out[i - 1] + out[i]);
    return out;
}

/// A microphone that has the far end `delay` samples later, growing by `drift` a sample, among noise 20 dB weaker.
std::vector<float> delayed(const std::vector<float>& far, double delay, double drift, std::uint32_t seed)
{
    std::vector<float> mic = noise(far.size(), seed);
    for (std::size_t i = 0; i < far.size(); ++i)
        mic[i] = 0.02F * mic[i] + 0.3F * between(far, static_cast<double>(i) * (1 - drift) - delay);
    return mic;
}

int run(Alignment& alignment, const std::vector<float>& far, const std::vector<float>& mic)
{
    int found = 0;
    std::vector<float> moved(kBlock);
    for (std::size_t at = 0; at + kBlock <= far.size(); at += kBlock) {
        alignment.push(std::span(far).subspan(at, kBlock), moved);
        found += alignment.compare(moved, std::span(mic).subspan(at, kBlock), true) ? 1 : 0;
    }
    return found;
}
} // namespace

class TestAlignment : public QObject
{
    Q_OBJECT
private slots:
    void knownDelaysAreFound_data()
    {
        QTest::addColumn<double>("delay");
        for (const double ms : {1.0, 5.3, 47.7, 180.0, 433.1, 600.0})
            QTest::newRow(qPrintable(QString::number(ms))) << ms;
    }
    void knownDelaysAreFound()
    {
        QFETCH(double, delay);
        const std::vector<float> far = smoothNoise(4 * 16'000, 3);
        DelayFinder finder(16'320, 9'920);
        const std::vector<float> mic = delayed(far, delay * 16, 0, 4);
        for (std::size_t at = 0; at + kBlock <= far.size(); at += kBlock)
            finder.push(std::span(far).subspan(at, kBlock), std::span(mic).subspan(at, kBlock));
        const auto found = finder.find();
        QVERIFY(found && found->strength > 10);
        QVERIFY2(std::abs(found->delay - delay * 16) < 0.6, qPrintable(QString::number(found->delay)));
    }

    void strangersHaveNoDelay()
    {
        const std::vector<float> far = smoothNoise(4 * 16'000, 5);
        const std::vector<float> mic = smoothNoise(4 * 16'000, 6);
        DelayFinder finder(16'320, 9'920);
        QVERIFY(!finder.find());
        for (std::size_t at = 0; at + kBlock <= far.size(); at += kBlock)
            finder.push(std::span(far).subspan(at, kBlock), std::span(mic).subspan(at, kBlock));
        QVERIFY(finder.find()->strength < 6);
        Alignment alignment(0);
        QCOMPARE(run(alignment, far, mic), 0);
        QCOMPARE(alignment.state(), Alignment::State::nothing);
    }

    // As if two crystals were 300 ppm apart: known to 5 ppm after ten seconds.
    void driftIsMeasuredAndReadAway()
    {
        const std::vector<float> far = smoothNoise(10 * 16'000, 7);
        for (const double drift : {300e-6, -450e-6, 0.0}) {
            Alignment alignment(0);
            const double delay = 90 * 16;
            QCOMPARE(run(alignment, far, delayed(far, delay, drift, 8)), 1);
            QVERIFY(std::abs(alignment.drift() - drift) < 5e-6);
            QVERIFY(std::abs(alignment.delay() - (delay + drift * static_cast<double>(far.size()))) < 1);
        }
    }

    void aJumpIsFoundAnew()
    {
        const std::vector<float> far = smoothNoise(10 * 16'000, 9);
        std::vector<float> mic = delayed(far, 60 * 16, 0, 10);
        const std::vector<float> later = delayed(far, 210 * 16, 0, 11);
        std::copy(later.begin() + 5 * 16'000, later.end(), mic.begin() + 5 * 16'000);
        Alignment alignment(0);
        QCOMPARE(run(alignment, far, mic), 2);
        QVERIFY(std::abs(alignment.delay() - 210 * 16) < 1);
    }

    void aDelayFromEarlierIsKeptWhenItStillHolds()
    {
        const std::vector<float> far = smoothNoise(4 * 16'000, 12);
        Alignment alignment(0);
        alignment.begin(100 * 16 + 12);
        QCOMPARE(run(alignment, far, delayed(far, 100 * 16, 0, 13)), 0);
        QVERIFY(std::abs(alignment.delay() - 100 * 16) < 1);
    }
};

QTEST_APPLESS_MAIN(TestAlignment)
#include "test_alignment.moc"
