// The person told from the loudspeaker.
#include "common/echo/clean_ear.h"

#include <QtTest>

#include <bit>
#include <cmath>

using namespace vh;

namespace
{
constexpr std::size_t kRate = 48'000;

/// Somebody humming, on and off, in a little noise.
std::vector<float> humming(std::size_t samples)
{
    std::vector<float> out(samples);
    std::uint32_t state = 1;
    for (std::size_t i = 0; i < samples; ++i) {
        state = state * 1664525U + 1013904223U;
        const double noise = static_cast<double>(state) / 4294967296.0 - 0.5;
        const double t = static_cast<double>(i) / kRate;
        double hum = 0;
        for (int k = 1; k <= 12; ++k)
            hum += std::sin(2 * M_PI * 140 * k * t) / k;
        out[i] = static_cast<float>(3e-4 * noise + (std::fmod(t, 2.0) < 1.2 ? 0.03 * hum : 0));
    }
    return out;
}

bool sameBits(float a, float b)
{
    return std::bit_cast<std::uint32_t>(a) == std::bit_cast<std::uint32_t>(b);
}
} // namespace

class TestCleanEar : public QObject
{
    Q_OBJECT
private slots:
    void withASilentFarEndItIsTheMeterBitForBit()
    {
        const std::vector<float> mic = humming(6 * kRate);
        const std::vector<float> far(mic.size(), 0.0F);
        std::vector<VoiceFrame> plain;
        Meter meter;
        meter.push(mic, [&](const VoiceFrame& frame) { plain.push_back(frame); });
        std::vector<VoiceFrame> clean;
        CleanEar ear;
        for (std::size_t at = 0; at < mic.size(); at += 777) {
            const std::size_t count = std::min<std::size_t>(777, mic.size() - at);
            ear.push(std::span(mic).subspan(at, count), std::span(far).subspan(at, count),
                     [&](const VoiceFrame& frame) { clean.push_back(frame); });
        }
        QCOMPARE(clean.size(), plain.size());
        int voiced = 0;
        for (std::size_t i = 0; i < plain.size(); ++i) {
            QVERIFY(sameBits(clean[i].meanSquareA, plain[i].meanSquareA));
            QVERIFY(sameBits(clean[i].fastDbfsA, plain[i].fastDbfsA));
            QVERIFY(sameBits(clean[i].noiseFloorDbfsA, plain[i].noiseFloorDbfsA));
            QVERIFY(sameBits(clean[i].confidence, plain[i].confidence));
            QCOMPARE(clean[i].voiced, plain[i].voiced);
            QCOMPARE(clean[i].blank, plain[i].blank);
            QCOMPARE(clean[i].whose, plain[i].voiced ? Whose::person : Whose::room);
            QCOMPARE(clean[i].leakMeanSquareA, 0.0F);
            voiced += plain[i].voiced ? 1 : 0;
        }
        QVERIFY(voiced > 200);
    }
};

QTEST_APPLESS_MAIN(TestCleanEar)
#include "test_clean_ear.moc"
