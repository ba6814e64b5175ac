// The linear filter and the coherence, beside an outside canceller (speexdsp's, without its preprocessor) and textbook
// values. Echo return loss enhancement: echo before over echo after, as in ITU-T G.168.
#include "common/echo/canceller.h"
#include "common/echo/coherence.h"
#include "common/echo/thirds.h"
#include "tests/common/echo/echo_sounds.h"

#include <QtTest>

#include <memory>
#include <speex/speex_echo.h>

using namespace vh;
using namespace vh::testing;

namespace
{
constexpr std::size_t kBlock = Canceller::kBlock;

/// Ours, learning all the time: the far end taken out of the microphone.
std::vector<float> cleaned(const std::vector<float>& far, const std::vector<float>& mic)
{
    Canceller canceller;
    std::vector<float> out(far.size());
    std::vector<float> echo(kBlock);
    std::vector<float> before(kBlock);
    for (std::size_t at = 0; at + kBlock <= far.size(); at += kBlock) {
        canceller.predict(std::span(far).subspan(at, kBlock), echo);
        if (at > 0)
            canceller.learn(before);
        for (std::size_t i = 0; i < kBlock; ++i)
            before[i] = out[at + i] = mic[at + i] - echo[i];
    }
    return out;
}

std::vector<float> cleanedBySpeex(const std::vector<float>& far, const std::vector<float>& mic)
{
    const std::unique_ptr<SpeexEchoState, void (*)(SpeexEchoState*)> state(
        speex_echo_state_init(kBlock, kBlock * Canceller::kPartitions), speex_echo_state_destroy);
    int rate = 16'000;
    speex_echo_ctl(state.get(), SPEEX_ECHO_SET_SAMPLING_RATE, &rate);
    std::vector<float> out(far.size());
    std::vector<spx_int16_t> a(kBlock), b(kBlock), c(kBlock);
    for (std::size_t at = 0; at + kBlock <= far.size(); at += kBlock) {
        for (std::size_t i = 0; i < kBlock; ++i) {
            a[i] = static_cast<spx_int16_t>(std::lround(mic[at + i] * 32767));
            b[i] = static_cast<spx_int16_t>(std::lround(far[at + i] * 32767));
        }
        speex_echo_cancellation(state.get(), a.data(), b.data(), c.data());
        for (std::size_t i = 0; i < kBlock; ++i)
            out[at + i] = static_cast<float>(c[i]) / 32767.0F;
    }
    return out;
}

double lastSecond(const std::vector<float>& samples)
{
    return meanSquare(std::span(samples).last(16'000));
}

std::vector<float> scaled(std::vector<float> samples, float by)
{
    for (float& sample : samples)
        sample *= by;
    return samples;
}
} // namespace

class TestCanceller : public QObject
{
    Q_OBJECT
private slots:
    // White noise through a room of 0.1 s, among noise 40 dB weaker, four seconds.
    void itRemovesAsMuchAsAnOutsideCanceller()
    {
        const std::vector<float> far = scaled(noise(4 * 16'000, 1), 0.3F);
        std::vector<float> mic = scaled(convolved(far, roomResponse(40, 1600, 2)), 0.3F);
        const std::vector<float> hiss = noise(far.size(), 3);
        for (std::size_t i = 0; i < mic.size(); ++i)
            mic[i] += 0.001F * hiss[i];
        const double ours = decibels(lastSecond(mic) / lastSecond(cleaned(far, mic)));
        const double theirs = decibels(lastSecond(mic) / lastSecond(cleanedBySpeex(far, mic)));
        QVERIFY2(theirs > 15, qPrintable(QString::number(theirs))); // or it has not been asked rightly
        QVERIFY2(ours > theirs - 1, qPrintable(QString("%1 against %2 dB").arg(ours).arg(theirs)));
        QVERIFY2(ours > 25, qPrintable(QString::number(ours)));
    }

    void keptStillItIsTheSameFilterForEver()
    {
        const std::vector<float> far = noise(2 * 16'000, 4);
        Canceller canceller;
        std::vector<float> echo(kBlock);
        for (std::size_t at = 0; at + kBlock <= far.size(); at += kBlock)
            canceller.predict(std::span(far).subspan(at, kBlock), echo);
        QCOMPARE(meanSquare(echo), 0.0);
    }

    void aCopyIsCoherentAndAStrangerIsNot()
    {
        const std::vector<float> one = noise(32'000, 5);
        const std::vector<float> other = noise(32'000, 6);
        const std::vector<float> copy = convolved(one, std::vector<float>{0.0F, 0.5F, -0.2F, 0.1F});
        // Output noise of equal power: coherence S / (S + N) = 0.5 (Bendat and Piersol, Random Data, section 6.1).
        std::vector<float> half(one.size());
        for (std::size_t i = 0; i < half.size(); ++i)
            half[i] = one[i] + other[i];
        const auto mean = [](const std::vector<float>& a, const std::vector<float>& b) {
            Coherence coherence;
            double sum = 0;
            int count = 0;
            for (std::size_t at = 0; at + kBlock <= a.size(); at += kBlock) {
                const double now = coherence.push(std::span(a).subspan(at, kBlock), std::span(b).subspan(at, kBlock));
                if (at >= 8000) {
                    sum += now;
                    ++count;
                }
            }
            return sum / count;
        };
        QVERIFY(mean(copy, one) > 0.98);
        QVERIFY2(mean(other, one) < 0.15, qPrintable(QString::number(mean(other, one))));
        QVERIFY(std::abs(mean(half, one) - 0.5) < 0.1);
    }

    // What goes to a third of the rate and back is what it was, kLate of each later: 60 dB.
    void thirdsGiveBackWhatTheyTook()
    {
        std::vector<float> tone(48'000);
        for (std::size_t i = 0; i < tone.size(); ++i)
            tone[i] = static_cast<float>(std::sin(2 * M_PI * 3000 * static_cast<double>(i) / 48'000));
        ToThird to;
        FromThird from;
        std::vector<float> third(160);
        std::vector<float> back(tone.size());
        for (std::size_t at = 0; at < tone.size(); at += 480) {
            to.push(std::span(tone).subspan(at, 480), third);
            from.push(third, std::span(back).subspan(at, 480));
        }
        constexpr std::size_t kLate = ToThird::kLate + FromThird::kLate;
        double error = 0;
        for (std::size_t i = 4800; i < tone.size(); ++i)
            error = std::max(error, static_cast<double>(std::abs(back[i] - tone[i - kLate])));
        QVERIFY2(error < 0.002, qPrintable(QString::number(error)));
    }
};

QTEST_APPLESS_MAIN(TestCanceller)
#include "test_canceller.moc"
