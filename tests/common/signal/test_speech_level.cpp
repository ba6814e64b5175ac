#include "tests/common/signal/response.h"

#include <QtTest>

using namespace vh;
using namespace vh::test;

namespace
{
/// Syllables of changing level with pauses around the hangover's length, in a quiet room.
Samples syllables()
{
    Samples speech;
    Dice dice(3);
    for (int i = 0; i < 25; ++i) {
        const double seconds = 0.12 + 0.1 * std::abs(dice.roll());
        const Samples syllable =
            sing({.pitchHz = 110, .seed = static_cast<std::uint64_t>(i)}, seconds, -30 + 12 * dice.roll());
        speech.insert(speech.end(), syllable.begin(), syllable.end());
        const Samples pause = silence(0.25 + 0.24 * dice.roll());
        speech.insert(speech.end(), pause.begin(), pause.end());
    }
    return mixed(speech, whiteNoise(static_cast<double>(speech.size()) / kRateHz, -75));
}

/// P.56 method B as the Recommendation states it, counter by counter and sample by sample; rounding as ITU-T G.191.
std::array<std::int64_t, 15> countsByTheBook(std::span<const float> samples, int rateHz)
{
    const double g = std::exp(-1.0 / (rateHz * 0.03));
    const auto hangover = std::lround(0.2 * rateHz);
    std::array<std::int64_t, 15> active{};
    std::array<std::int64_t, 15> waited{};
    waited.fill(hangover);
    double p = 0, q = 0;
    for (const float x : samples) {
        p = g * p + (1 - g) * std::abs(static_cast<double>(x));
        q = g * q + (1 - g) * p;
        for (std::size_t j = 0; j < active.size(); ++j) {
            if (q >= std::ldexp(1.0, static_cast<int>(j) - 15)) {
                ++active[j];
                waited[j] = 0;
            } else if (waited[j] < hangover) {
                ++active[j];
                ++waited[j];
            }
        }
    }
    return active;
}
double levelByTheBook(std::span<const float> samples, int rateHz)
{
    const auto active = countsByTheBook(samples, rateHz);
    double squares = 0;
    for (const float x : samples)
        squares += static_cast<double>(x) * x;
    double low = 0, lowMargin = 0;
    for (std::size_t j = 0; j < active.size(); ++j) {
        const double level = 10 * std::log10(squares / static_cast<double>(active[j]));
        const double margin = level - 20 * std::log10(std::ldexp(1.0, static_cast<int>(j) - 15));
        if (margin <= 15.9)
            return low + (lowMargin - 15.9) / (lowMargin - margin) * (level - low);
        low = level;
        lowMargin = margin;
    }
    return 0;
}
} // namespace

class TestSpeechLevel : public QObject
{
    Q_OBJECT
private slots:
    // Computed outside the project from the formulas of ITU-T P.56 (12/2011) method B, exact interpolation, 16 kHz.
    void knownCases()
    {
        for (const SpeechLevelCase& known : kSpeechLevelCases) {
            const auto reading = speechLevelOf(known, 16'000);
            QVERIFY(reading);
            const QByteArray said = QByteArray::number(reading->activeDb) + " " + QByteArray::number(reading->activity);
            QVERIFY2(std::abs(reading->activeDb - known.activeDb) <= 0.01, said.constData());
            QVERIFY2(std::abs(reading->activity - known.activity) <= 0.001, said.constData());
        }
        QVERIFY(std::abs(speechLevelOf(kSpeechLevelCases[1], 16'000)->longTermDb + 23.01) < 0.01);
    }

    // The same sounds at our own rate: the formulas are in seconds, so only rounding may differ.
    void theRateDoesNotMatter()
    {
        for (const SpeechLevelCase& known : kSpeechLevelCases)
            QVERIFY(std::abs(speechLevelOf(known, 48'000)->activeDb - known.activeDb) <= 0.05);
    }

    // Our counters work by crossings; the Recommendation's by samples. They must agree on speech-like sound.
    void crossingsCountAsSamplesDo()
    {
        const Samples speech = syllables();
        SpeechLevel level(kRateHz);
        std::span<const float> rest(speech);
        while (!rest.empty()) {
            const std::size_t piece = std::min<std::size_t>(rest.size(), 777);
            level.push(rest.first(piece));
            rest = rest.subspan(piece);
        }
        QVERIFY(level.reading());
        QVERIFY2(std::abs(level.reading()->activeDb - levelByTheBook(speech, kRateHz)) < 1e-6,
                 qPrintable(QString("%1 %2").arg(level.reading()->activeDb).arg(levelByTheBook(speech, kRateHz))));
    }

    // ITU-T G.191 software tools (openitu/STL), actlevel -sf 48000, run once on these samples as 16-bit numbers:
    // RMSLev -29.402, ActLev -28.360, %Active 78.677 (and sox stats: RMS level -29.40).
    // Its search for the crossing stops within 0.5 dB, ours is exact; hence 0.1 dB, which is 2 % of activity.
    void agreesWithTheReferenceToolOfTheItu()
    {
        SpeechLevel level(kRateHz);
        for (const float sample : syllables()) {
            const float rounded = std::round(sample * 32768.0F) / 32768.0F;
            level.push({&rounded, 1});
        }
        const auto reading = level.reading();
        QVERIFY(reading);
        QVERIFY2(std::abs(reading->longTermDb + 29.402) < 0.005, qPrintable(QString::number(reading->longTermDb)));
        QVERIFY2(std::abs(reading->activeDb + 28.360) < 0.1, qPrintable(QString::number(reading->activeDb)));
        QVERIFY2(std::abs(reading->activity - 0.78677) < 0.02, qPrintable(QString::number(reading->activity)));
    }

    // A change of gain changes the level by just that, thresholds or not (P.56: within the tolerance of +-0.1 dB here).
    void gainShiftsTheLevel()
    {
        const Samples voice = joined({sing({}, 3.0, -26), silence(1.0), sing({.seed = 9}, 2.0, -30)});
        SpeechLevel loud(kRateHz);
        loud.push(voice);
        Samples soft = voice;
        for (float& sample : soft)
            sample *= 0.1F; // -20 dB
        SpeechLevel quiet(kRateHz);
        quiet.push(soft);
        QVERIFY(std::abs(loud.reading()->activeDb - quiet.reading()->activeDb - 20.0) < 0.1);
    }

    void silenceAndNothingHaveNoLevel()
    {
        SpeechLevel level(kRateHz);
        QVERIFY(!level.reading());
        level.push(silence(2.0));
        QVERIFY(!level.reading());
        level.push(sine(1000, 1.0, -20));
        QVERIFY(level.reading());
        level.restart();
        QVERIFY(!level.reading());
    }
};

QTEST_APPLESS_MAIN(TestSpeechLevel)
#include "test_speech_level.moc"
