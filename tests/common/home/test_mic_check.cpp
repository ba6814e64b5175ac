// The mic check: what it finds, and that the level it finds is the level that was there.
#include "common/home/mic_check.h"
#include "common/signal/meter.h"
#include "tests/common/home/home_class.h"
#include "tests/common/signal/synthetic.h"

#include <QtTest>

#include <complex>

using namespace vh;
using namespace vh::testing;

namespace
{

void hear(MicCheck& check, const std::vector<VoiceFrame>& frames)
{
    for (const VoiceFrame& frame : frames)
        check.add(frame);
}

/// Through the whole chain of a home's microphone.
void hear(MicCheck& check, const test::Samples& samples)
{
    Meter meter;
    meter.push(samples, [&](const VoiceFrame& frame) { check.add(frame); });
}

/// A-weighting by the analytic formula of IEC 61672-1:2013, Annex E (typed from memory; 1 kHz gives 0 dB by design).
double aWeight(double hz)
{
    const double f2 = hz * hz;
    const double ra =
        12194.0 * 12194.0 * f2 * f2 /
        ((f2 + 20.6 * 20.6) * std::sqrt((f2 + 107.7 * 107.7) * (f2 + 737.9 * 737.9)) * (f2 + 12194.0 * 12194.0));
    return ra * ra * std::pow(10.0, 0.2);
}

/// The A-weighted level of a sound by its spectrum: nothing of the meter is used. dB re full scale.
double spectralLevelA(const test::Samples& samples)
{
    constexpr std::size_t kSize = 32768;
    std::vector<std::complex<double>> x(kSize);
    double windowEnergy = 0;
    for (std::size_t i = 0; i < kSize; ++i) {
        const double hann = 0.5 - 0.5 * std::cos(2 * std::numbers::pi * static_cast<double>(i) / kSize);
        windowEnergy += hann * hann;
        x[i] = hann * static_cast<double>(samples.at(i + test::kRateHz));
    }
    // Cooley and Tukey's transform of 1965, radix 2, in place.
    for (std::size_t i = 1, j = 0; i < kSize; ++i) {
        std::size_t bit = kSize >> 1;
        for (; j & bit; bit >>= 1)
            j ^= bit;
        j ^= bit;
        if (i < j)
            std::swap(x[i], x[j]);
    }
    for (std::size_t length = 2; length <= kSize; length <<= 1) {
        const std::complex<double> turn = std::polar(1.0, -2 * std::numbers::pi / static_cast<double>(length));
        for (std::size_t start = 0; start < kSize; start += length) {
            std::complex<double> factor = 1;
            for (std::size_t k = 0; k < length / 2; ++k, factor *= turn) {
                const auto even = x[start + k];
                const auto odd = x[start + k + length / 2] * factor;
                x[start + k] = even + odd;
                x[start + k + length / 2] = even - odd;
            }
        }
    }
    double energy = 0;
    for (std::size_t k = 1; k < kSize / 2; ++k)
        energy += 2 * std::norm(x[k]) * aWeight(static_cast<double>(k) * test::kRateHz / kSize);
    return 10 * std::log10(energy / (windowEnergy * kSize));
}

} // namespace

class TestMicCheck : public QObject
{
    Q_OBJECT
private slots:
    void theUsualLevelIsTheLevelOfTheVoice_data()
    {
        QTest::addColumn<double>("pitchHz");
        QTest::addColumn<double>("db");
        QTest::newRow("low, soft") << 105.0 << -44.0;
        QTest::newRow("high, ordinary") << 210.0 << -30.0;
        QTest::newRow("middle, strong") << 150.0 << -18.0;
    }
    void theUsualLevelIsTheLevelOfTheVoice()
    {
        QFETCH(const double, pitchHz);
        QFETCH(const double, db);
        test::Vowel vowel;
        vowel.pitchHz = pitchHz;
        const test::Samples voice = test::sing(vowel, 12, db);
        MicCheck check;
        hear(check, test::mixed(test::joined({test::silence(3.2), voice}), test::whiteNoise(16, -72)));
        QCOMPARE(check.stage(), MicCheck::Stage::done);
        QCOMPARE(check.finding(), MicCheck::Finding::fine);
        QVERIFY(check.usualDbfsA());
        const double truth = spectralLevelA(voice);
        QVERIFY2(std::abs(*check.usualDbfsA() - truth) <= 0.5,
                 qPrintable(QString("found %1, is %2").arg(*check.usualDbfsA()).arg(truth)));
    }

    void theRoomIsHeardForThreeSecondsThenTheVoice()
    {
        MicCheck check;
        hear(check, roomFrames(150, -62));
        QCOMPARE(check.stage(), MicCheck::Stage::room);
        QCOMPARE(check.progress(), 0.5F);
        hear(check, roomFrames(150, -62));
        QCOMPARE(check.stage(), MicCheck::Stage::speak);
        QVERIFY(std::abs(check.roomDbfsA() + 62) < 0.01F);
        QCOMPARE(check.progress(), 0.0F);
        hear(check, voiceFrames(200, -30));
        QCOMPARE(check.progress(), 0.5F);
        QVERIFY(!check.usualDbfsA()); // not before it is over
    }

    void whoSpeaksTooEarlyIsNotTakenForTheRoom()
    {
        MicCheck check;
        hear(check, voiceFrames(200, -25));
        hear(check, roomFrames(100, -65));
        QVERIFY(std::abs(check.roomDbfsA() + 65) < 0.01F);
    }

    void theFirstReadingIsDropped()
    {
        MicCheck check;
        hear(check, roomFrames(300));
        hear(check, voiceFrames(100, -20)); // people start louder than they go on
        hear(check, voiceFrames(300, -30));
        QCOMPARE(check.stage(), MicCheck::Stage::done);
        QVERIFY(std::abs(check.usualDbfsA().value() + 30) < 0.01F);
    }

    void aDeviceThatDeliversNothingIsSaidAfterTheRoomAlready()
    {
        MicCheck check;
        hear(check, roomFrames(300, -120, Blank::noSignal));
        QCOMPARE(check.stage(), MicCheck::Stage::done);
        QCOMPARE(check.finding(), MicCheck::Finding::noSound);
        QVERIFY(!check.usualDbfsA());
    }

    void aDeviceThatDiesWhileSpeakingIsSaidWithinSeconds()
    {
        MicCheck check;
        hear(check, roomFrames(300));
        hear(check, voiceFrames(100, -30));
        hear(check, roomFrames(400, -120, Blank::noSignal));
        QCOMPARE(check.finding(), MicCheck::Finding::noSound);
    }

    void aDeviceThatWakesUpLateIsNoFault()
    {
        MicCheck check;
        hear(check, roomFrames(120, -120, Blank::noSignal));
        hear(check, roomFrames(180, -64));
        QCOMPARE(check.stage(), MicCheck::Stage::speak);
        QVERIFY(std::abs(check.roomDbfsA() + 64) < 0.01F);
    }

    void silenceIsNoVoice()
    {
        MicCheck check;
        hear(check, roomFrames(300));
        hear(check, roomFrames(2499));
        QCOMPARE(check.stage(), MicCheck::Stage::speak);
        hear(check, roomFrames(1));
        QCOMPARE(check.finding(), MicCheck::Finding::noVoice);
    }

    void aMicrophoneTurnedUpTooFarIsClipping()
    {
        MicCheck check;
        test::Samples voice = test::sing({}, 8, -2);
        for (float& sample : voice)
            sample = std::clamp(sample, -1.0F, 1.0F);
        hear(check, test::mixed(test::joined({test::silence(3.2), voice}), test::whiteNoise(12, -72)));
        QCOMPARE(check.finding(), MicCheck::Finding::clipping);
        QVERIFY(!check.usualDbfsA());
    }

    void aRoomTooNearTheVoiceIsTooNoisy()
    {
        MicCheck check;
        hear(check, roomFrames(300, -38));
        hear(check, voiceFrames(400, -29));
        QCOMPARE(check.finding(), MicCheck::Finding::tooNoisy);
        MicCheck better;
        hear(better, roomFrames(300, -40));
        hear(better, voiceFrames(400, -29));
        QCOMPARE(better.finding(), MicCheck::Finding::fine);
    }
};

QTEST_APPLESS_MAIN(TestMicCheck)
#include "test_mic_check.moc"
