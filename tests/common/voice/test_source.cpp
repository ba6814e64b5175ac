#include "common/voice/source.h"

#include "tests/common/voice/listening.h"

#include <QtTest>

using namespace vh::voice;
using namespace vh::voice::test;

namespace
{

struct Pulses {
    std::vector<double> periods;    ///< seconds, from closure to closure
    std::vector<double> amplitudes; ///< depth of the flow's derivative just before the closure
};

/// Closures are where the derivative jumps back to nothing. Their places are known to a sample or so: a hundredth of a
/// hundredth of what is asked about below.
Pulses pulsesOf(const VoiceTraits& traits, double hz, double seconds, bool creaky = false)
{
    Glottis glottis(traits, Random(7));
    std::vector<double> flow(static_cast<std::size_t>(seconds * kRateHz));
    std::vector<double> open(flow.size());
    glottis.push({hz, hz, creaky}, flow, open);
    Pulses pulses;
    double last = -1;
    double deepest = 0;
    for (std::size_t i = 1; i < flow.size(); ++i) {
        deepest = std::min(deepest, flow[i]);
        if (open[i] < open[i - 1]) {
            const auto now = static_cast<double>(i);
            if (last >= 0) {
                pulses.periods.push_back((now - last) / kRateHz);
                pulses.amplitudes.push_back(-deepest);
            }
            last = now;
            deepest = 0;
        }
    }
    return pulses;
}

double meanOf(const std::vector<double>& values)
{
    double sum = 0;
    for (const double each : values)
        sum += each;
    return sum / static_cast<double>(values.size());
}

/// "Local" jitter and shimmer as commonly defined: the mean absolute difference of neighbours, over the mean.
double localPercent(const std::vector<double>& values)
{
    double sum = 0;
    for (std::size_t i = 1; i < values.size(); ++i)
        sum += std::abs(values[i] - values[i - 1]);
    return 100 * sum / static_cast<double>(values.size() - 1) / meanOf(values);
}

VoiceTraits plain()
{
    VoiceTraits traits = machine();
    traits.tiltDb = 0;
    return traits;
}

} // namespace

class TestSource : public QObject
{
    Q_OBJECT
private slots:
    void pulsesComeAtThePitch_data()
    {
        QTest::addColumn<double>("hz");
        for (const double hz : {60.0, 97.3, 120.0, 233.0, 380.0})
            QTest::addRow("%.0f Hz", hz) << hz;
    }
    void pulsesComeAtThePitch()
    {
        QFETCH(double, hz);
        // Over seconds the rounding to samples averages out.
        QVERIFY(std::abs(1 / meanOf(pulsesOf(plain(), hz, 5).periods) / hz - 1) < 0.0005);
    }

    void jitterIsWhatWasAskedFor_data()
    {
        QTest::addColumn<double>("percent");
        for (const double percent : {0.5, 1.0, 2.0, 4.0})
            QTest::addRow("%.1f %%", percent) << percent;
    }
    void jitterIsWhatWasAskedFor()
    {
        QFETCH(double, percent);
        VoiceTraits traits = plain();
        traits.jitterPercent = percent;
        // 2,400 periods: a standard error of 1.5 %. Rounding to samples adds up to 0.1 percentage points at 100 Hz.
        const double found = localPercent(pulsesOf(traits, 100, 24).periods);
        QVERIFY2(std::abs(found - percent) < 0.06 * percent + 0.05, qPrintable(QString::number(found)));
    }

    void shimmerIsWhatWasAskedFor_data()
    {
        QTest::addColumn<double>("percent");
        for (const double percent : {2.0, 5.0, 10.0})
            QTest::addRow("%.0f %%", percent) << percent;
    }
    void shimmerIsWhatWasAskedFor()
    {
        QFETCH(double, percent);
        VoiceTraits traits = plain();
        traits.shimmerPercent = percent;
        const double found = localPercent(pulsesOf(traits, 100, 24).amplitudes);
        // The deepest sample lies up to one sample before the closure: 1.5 % of the depth at 100 Hz, evenly spread.
        QVERIFY2(std::abs(found - percent) < 0.06 * percent + 0.6, qPrintable(QString::number(found)));
    }

    // Klatt and Klatt 1990: a double pulse, the first of each pair weaker and shifted towards its neighbour.
    void creakComesInPairs()
    {
        const Pulses pulses = pulsesOf(plain(), 100, 4, true);
        QVERIFY(1 / meanOf(pulses.periods) < 75);
        QVERIFY(localPercent(pulses.periods) > 25);
        for (std::size_t i = 2; i < pulses.amplitudes.size(); ++i) {
            QVERIFY(std::abs(pulses.amplitudes[i] / pulses.amplitudes[i - 2] - 1) < 0.1);
            const double pair = pulses.amplitudes[i] / pulses.amplitudes[i - 1];
            QVERIFY(std::abs(std::log(pair)) > 0.5);
        }
    }

    // The derivative of x^2 - x^3 crosses zero at two thirds of the open part, where the flow is greatest.
    void flowPeaksAtTwoThirdsOfTheOpenPart()
    {
        VoiceTraits traits = plain();
        traits.openQuotient = 0.6;
        Glottis glottis(traits, Random(1));
        std::vector<double> flow(kRateHz / 50);
        std::vector<double> open(flow.size());
        glottis.push({50, 50, false}, flow, open); // one period: 960 samples, open from the 384th on
        const auto opens = std::find(open.begin(), open.end(), 1.0) - open.begin();
        QVERIFY(std::abs(static_cast<double>(opens) - 384) <= 2);
        std::size_t zero = 0;
        for (std::size_t i = static_cast<std::size_t>(opens) + 10; i < flow.size() && zero == 0; ++i)
            if (flow[i] <= 0)
                zero = i;
        QVERIFY(std::abs(static_cast<double>(zero) - (384 + 576 * 2.0 / 3)) <= 2);
    }

    // TL of Klatt and Klatt 1990: the loss at 3 kHz, here of a harmonic there against the same without tilt.
    void tiltIsLostAtThreeKilohertz()
    {
        const auto at3Khz = [](double tiltDb) {
            VoiceTraits traits = plain();
            traits.tiltDb = tiltDb;
            Glottis glottis(traits, Random(1));
            std::vector<double> flow(kRateHz);
            std::vector<double> open(flow.size());
            glottis.push({100, 100, false}, flow, open);
            const std::vector<float> samples(flow.begin(), flow.end());
            return 10 * std::log10(powerAt(samples, 3000, 4800));
        };
        QVERIFY(std::abs(at3Khz(0.01) - at3Khz(12) - 12) < 0.1);
    }
};

QTEST_APPLESS_MAIN(TestSource)
#include "test_source.moc"
