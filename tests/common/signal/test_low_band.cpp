// The band under all voices: what a Butterworth filter of 8th order above and 2nd order below lets through.
#include "common/signal/low_band.h"

#include <QtTest>

#include <cmath>
#include <numbers>

using namespace vh;

namespace
{

/// dB, of a steady tone.
double throughDb(double hz, int rate)
{
    LowBand band(rate);
    double sum = 0;
    const int settles = 2 * rate;
    for (int i = 0; i < settles + rate; ++i) {
        const double out = band.push(std::sin(2 * std::numbers::pi * hz * i / rate));
        sum += i >= settles ? out * out : 0;
    }
    return 10 * std::log10(2 * sum / rate);
}

/// By the book: 1 / (1 + (f / corner)^2n), and the reverse for the cut below.
double byTheBookDb(double hz)
{
    const double above = 1 + std::pow(hz / LowBand::kToHz, 16);
    const double below = 1 + std::pow(LowBand::kFromHz / hz, 4);
    return -10 * std::log10(above * below);
}

} // namespace

class TestLowBand : public QObject
{
    Q_OBJECT
private slots:
    void theBandIsAsTheBookSays_data()
    {
        QTest::addColumn<double>("hz");
        for (const double hz : {10.0, 20.0, 30.0, 40.0, 50.0, 60.0, 80.0, 95.0})
            QTest::addRow("%g Hz", hz) << hz;
    }
    void theBandIsAsTheBookSays()
    {
        QFETCH(const double, hz);
        for (const int rate : {16'000, 48'000}) {
            const double found = throughDb(hz, rate);
            QVERIFY2(std::abs(found - byTheBookDb(hz)) < 0.2, qPrintable(QString::number(found)));
        }
    }

    void aVoiceIsKeptOut()
    {
        QVERIFY(throughDb(95, 48'000) < -44);
        QVERIFY(throughDb(200, 48'000) < -90);
    }
};

QTEST_APPLESS_MAIN(TestLowBand)
#include "test_low_band.moc"
