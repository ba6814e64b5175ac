#include "common/sound/clock_bridge.h"
#include "tests/common/signal/synthetic.h"
#include "tests/common/sound/purity.h"

#include <QtTest>

using namespace vh;
using namespace vh::test;

namespace
{
/// Feeds an endless tone in frames of 20 ms.
class Tone
{
public:
    explicit Tone(double hz) : m_hz(hz) {}
    std::span<const float> next()
    {
        for (float& sample : m_frame)
            sample =
                static_cast<float>(0.25 * std::sin(2 * std::numbers::pi * m_hz * static_cast<double>(m_at++) / 48'000));
        return m_frame;
    }

private:
    double m_hz;
    std::uint64_t m_at = 0;
    std::array<float, 960> m_frame{};
};
} // namespace

class TestClockBridge : public QObject
{
    Q_OBJECT
private slots:
    // Closed form: a tone of f, played faster by s, is a tone of f (1 + s) that began at the same time. SNR of this
    // converter by its makers: 97 dB.
    void aToneIsPlayedFasterOrSlowerAndStaysPure()
    {
        for (const double ppm : {-2500.0, -500.0, -37.0, 0.0, 500.0, 2500.0}) {
            for (const double hz : {120.0, 1000.0, 7000.0}) {
                ClockBridge bridge;
                bridge.setSpeed(ppm * 1e-6);
                Tone tone(hz);
                Samples out(48'000);
                for (std::size_t at = 0; at < out.size(); at += 480)
                    bridge.pull(std::span(out).subspan(at, 480), [&] { return tone.next(); });
                double error = 0;
                for (std::size_t i = 4'800; i < out.size(); ++i) {
                    const double expected =
                        0.25 * std::sin(2 * std::numbers::pi * hz * (1 + ppm * 1e-6) * static_cast<double>(i) / 48'000);
                    error += std::pow(out[i] - expected, 2);
                }
                const double errorDb = 10 * std::log10(error / (48'000 - 4'800) / (0.25 * 0.25 / 2));
                QVERIFY2(errorDb < -75, qPrintable(QString("%1 ppm %2 Hz: %3 dB").arg(ppm).arg(hz).arg(errorDb)));
            }
        }
    }

    void aChangingSpeedMakesNoJump()
    {
        ClockBridge bridge;
        Tone tone(1000);
        Samples out(480'000);
        for (std::size_t at = 0; at < out.size(); at += 480) {
            bridge.setSpeed(2'500e-6 * std::sin(static_cast<double>(at) / 20'000));
            bridge.pull(std::span(out).subspan(at, 480), [&] { return tone.next(); });
        }
        // The steepest that a tone of this height and level can be, a quarter of a percent faster.
        const double steepest = 0.25 * 2 * std::numbers::pi * 1000 * 1.0026 / 48'000;
        QVERIFY(largestStep(std::span(out).subspan(480)) <= steepest);
        for (std::size_t at = 4'800; at + 4'800 <= out.size(); at += 4'800)
            QVERIFY(restDbNear(std::span(out).subspan(at, 960), 1000) < -50);
    }

    void whereItIsInTheSoundIsKnownExactly()
    {
        ClockBridge bridge;
        Samples ramp(960);
        std::uint64_t at = 0;
        const auto next = [&]() -> std::span<const float> {
            for (float& sample : ramp)
                sample = static_cast<float>(at++) * 1e-6F;
            return ramp;
        };
        Samples out(480);
        for (int i = 0; i < 1000; ++i) {
            bridge.setSpeed((i % 7 - 3) * 500e-6);
            bridge.pull(out, next);
            QVERIFY(bridge.lag() >= 0 && bridge.lag() < 1'000);
            // A ramp of 1e-6 a sample tells by its height how far it has been given out.
            if (i > 2)
                QVERIFY(std::abs((bridge.given() - 1) * 1e-6 - out.back()) < 1.5e-6);
        }
    }
};

QTEST_APPLESS_MAIN(TestClockBridge)
#include "test_clock_bridge.moc"
