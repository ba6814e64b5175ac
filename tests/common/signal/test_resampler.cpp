#include "common/signal/resampler.h"
#include "tests/common/signal/synthetic.h"

#include <QtTest>

#include <stdexcept>

using namespace vh;
using namespace vh::test;

namespace
{
Samples converted(const Samples& samples, int fromRateHz, std::size_t block)
{
    Resampler resampler(fromRateHz);
    Samples out;
    for (std::size_t at = 0; at < samples.size(); at += block)
        resampler.push(std::span(samples).subspan(at, std::min(block, samples.size() - at)),
                       [&](std::span<const float> piece) { out.insert(out.end(), piece.begin(), piece.end()); });
    return out;
}

/// Level of the part of `samples` that is a sine of this frequency, and of all the rest, dB (a plain Fourier sum).
struct Purity {
    double toneDb;
    double restDb;
};
Purity purityOf(std::span<const float> samples, double hz)
{
    double real = 0, imaginary = 0, squares = 0;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double angle = 2 * std::numbers::pi * hz * static_cast<double>(i) / kRateHz;
        real += samples[i] * std::cos(angle);
        imaginary += samples[i] * std::sin(angle);
        squares += static_cast<double>(samples[i]) * samples[i];
    }
    const auto count = static_cast<double>(samples.size());
    const double tone = 2 * (real * real + imaginary * imaginary) / (count * count);
    return {10 * std::log10(tone), 10 * std::log10(std::max(squares / count - tone, 1e-16))};
}
} // namespace

class TestResampler : public QObject
{
    Q_OBJECT
private slots:
    void levelAndPitchOfATonePass_data()
    {
        QTest::addColumn<int>("rateHz");
        for (const int rate : {8000, 11'025, 16'000, 22'050, 32'000, 44'100, 48'000, 88'200, 96'000, 192'000})
            QTest::addRow("%d Hz", rate) << rate;
    }
    void levelAndPitchOfATonePass()
    {
        QFETCH(int, rateHz);
        const Samples out = converted(sine(1000, 2, -20, rateHz), rateHz, 441);
        QVERIFY2(std::abs(static_cast<double>(out.size()) - 96'000) < 500, qPrintable(QString::number(out.size())));
        const Purity purity = purityOf(std::span(out).subspan(9600, 72'000), 1000);
        QVERIFY2(std::abs(purity.toneDb + 20) < 0.05, qPrintable(QString::number(purity.toneDb)));
        QVERIFY2(purity.restDb < -20 - 70, qPrintable(QString::number(purity.restDb)));
    }

    void blocksOfAnySizeGiveTheSameSound()
    {
        const Samples voice = sing({}, 1, -20);
        const Samples once = converted(voice, 44'100, voice.size());
        for (const std::size_t block : {1, 100, 4410}) {
            const Samples pieces = converted(voice, 44'100, block);
            const std::size_t count = std::min(once.size(), pieces.size());
            QVERIFY(count > 50'000);
            for (std::size_t i = 0; i < count; ++i)
                QVERIFY(std::abs(once[i] - pieces[i]) < 1e-5F);
        }
    }

    void whatTheLowerRateCannotHoldDoesNotFoldBack()
    {
        const Samples out = converted(sine(60'000, 1, -20, 192'000), 192'000, 1000);
        QVERIFY(dbOf(std::span(out).subspan(4800)) < -90);
    }

    void equalRatesPassUntouched()
    {
        const Samples voice = sing({}, 0.1, -20);
        QCOMPARE(converted(voice, 48'000, 77), voice);
    }

    void afterARestartTheOldSoundIsGone()
    {
        Resampler resampler(16'000);
        const auto ignore = [](std::span<const float>) {};
        resampler.push(sine(500, 0.5, -10, 16'000), ignore);
        resampler.restart();
        float greatest = 0;
        resampler.push(silence(0.5, 16'000), [&](std::span<const float> piece) {
            for (const float sample : piece)
                greatest = std::max(greatest, std::abs(sample));
        });
        QCOMPARE(greatest, 0.0F);
    }

    void impossibleRatesAreRefused()
    {
        QVERIFY_THROWS_EXCEPTION(std::runtime_error, Resampler(0));
        QVERIFY_THROWS_EXCEPTION(std::runtime_error, Resampler(-48'000));
        QVERIFY_THROWS_EXCEPTION(std::runtime_error, Resampler(7'999));
        QVERIFY_THROWS_EXCEPTION(std::runtime_error, Resampler(192'001));
    }
};

QTEST_APPLESS_MAIN(TestResampler)
#include "test_resampler.moc"
