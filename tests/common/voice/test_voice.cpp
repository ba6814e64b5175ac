// What can be measured of a whole utterance: pitch, breath, level, tremor, labels.
#include "common/signal/weighting.h"
#include "tests/common/voice/listening.h"

#include <QtTest>

using namespace vh;
using namespace vh::voice;
using namespace vh::voice::test;

namespace
{

Utterance sentence(double levelDbfsA = -36)
{
    Utterance utterance;
    utterance.text = "Joseph has the kettle on, so come and sit.";
    utterance.levelDbfsA = levelDbfsA;
    return utterance;
}

/// A-weighted Leq over what the labels call voiced, counted here sample by sample.
double leqOver(const Sound& sound, SoundKind kind)
{
    Weighting weighting(kRateHz);
    LevelAccumulator level;
    auto label = sound.labels.begin();
    for (std::size_t i = 0; i < sound.samples.size(); ++i) {
        const double a = weighting.push(sound.samples[i]).a;
        while (label != sound.labels.end() && label->end <= i)
            ++label;
        if (label != sound.labels.end() && label->begin <= i && label->kind == kind)
            level.add(a * a);
    }
    return level.leqDb();
}

/// Level of each 10 ms of `samples`, dB.
std::vector<double> levels(std::span<const float> samples)
{
    std::vector<double> found;
    for (std::size_t from = 0; from + 480 <= samples.size(); from += 480) {
        double sum = 0;
        for (const float sample : samples.subspan(from, 480))
            sum += static_cast<double>(sample) * sample;
        found.push_back(10 * std::log10(sum / 480));
    }
    return found;
}

/// Amplitude of the swing of `values` at `hz`, 100 values a second.
double swingAt(const std::vector<double>& values, double hz)
{
    double mean = 0;
    for (const double each : values)
        mean += each / static_cast<double>(values.size());
    std::complex<double> sum;
    for (std::size_t i = 0; i < values.size(); ++i)
        sum += (values[i] - mean) * std::polar(1.0, -kTwoPi * hz * static_cast<double>(i) / 100);
    return 2 * std::abs(sum) / static_cast<double>(values.size());
}

double strongestSwing(const std::vector<double>& values)
{
    double best = 0;
    double bestHz = 0;
    for (double hz = 3; hz <= 10; hz += 0.1)
        if (const double swing = swingAt(values, hz); swing > best) {
            best = swing;
            bestHz = hz;
        }
    return bestHz;
}

} // namespace

class TestVoice : public QObject
{
    Q_OBJECT
private slots:
    void aHeldVowelHasItsPitch_data()
    {
        QTest::addColumn<double>("hz");
        for (const double hz : {80.0, 120.0, 210.0, 300.0})
            QTest::addRow("%.0f Hz", hz) << hz;
    }
    void aHeldVowelHasItsPitch()
    {
        QFETCH(double, hz);
        const Sound sound = render(held(1), machine(hz), 1);
        QVERIFY(std::abs(periodOf(middle(sound.samples, 0.4, 0.1)).hz / hz - 1) < 0.005);
    }

    void breathIsAsLoudAsItWasAskedToBe_data()
    {
        QTest::addColumn<double>("hnr");
        for (const double hnr : {0.0, 3.0, 5.0, 10.0, 15.0, 20.0, 25.0})
            QTest::addRow("%.0f dB", hnr) << hnr;
    }
    void breathIsAsLoudAsItWasAskedToBe()
    {
        QFETCH(double, hnr);
        const Sound sound = render(held(3), machine(120, hnr), 1);
        std::vector<double> found;
        for (double from = 0.4; from < 2.5; from += 0.2) {
            const Period period = periodOf(middle(sound.samples, from, 0.1));
            found.push_back(hnrDb(period));
        }
        std::sort(found.begin(), found.end());
        // Breath is coloured by the same formants: one period later a fifth of it is still the same (a formant 60 Hz
        // wide after 8 ms: exp(-60 pi 0.008) = 0.22) and counts as voice, 1 dB. Below 5 dB the greatest peak is chosen
        // among several that noise has lifted.
        const double slack = hnr < 5 ? 2.2 : 1.3;
        QVERIFY2(std::abs(found[found.size() / 2] - hnr) < slack, qPrintable(QString::number(found[found.size() / 2])));
    }

    // In every piece of noise some lag repeats best, but not the same one; a voice repeats at its pitch even where the
    // breath is as strong as itself.
    void whispersHaveNoPeriod()
    {
        VoiceTraits traits = machine(120, 0);
        const auto pitches = [&] {
            const Sound sound = render(held(2.4), traits, 1);
            std::vector<double> found;
            for (double from = 0.3; from < 2; from += 0.2)
                found.push_back(periodOf(middle(sound.samples, from, 0.1)).hz);
            std::sort(found.begin(), found.end());
            return found;
        };
        const std::vector<double> voice = pitches();
        QVERIFY(std::abs(voice[voice.size() / 2] / 120 - 1) < 0.03);
        traits.whispers = true;
        const std::vector<double> whisper = pitches();
        QVERIFY(whisper.back() / whisper.front() > 1.5);
        const Sound sound = render(held(2), traits, 1);
        for (const Label& each : sound.labels)
            QVERIFY(each.kind != SoundKind::voiced);
    }

    void theLevelIsTheOneAskedFor_data()
    {
        QTest::addColumn<double>("level");
        QTest::addColumn<bool>("whispers");
        QTest::addColumn<int>("contour");
        for (const double level : {-60.0, -36.0, -20.0})
            for (const int contour : {0, 1, 2}) {
                QTest::addRow("voice %.0f, contour %d", level, contour) << level << false << contour;
                QTest::addRow("whisper %.0f, contour %d", level, contour) << level << true << contour;
            }
    }
    void theLevelIsTheOneAskedFor()
    {
        QFETCH(double, level);
        QFETCH(bool, whispers);
        QFETCH(int, contour);
        VoiceTraits traits;
        traits.whispers = whispers;
        Utterance utterance = sentence(level);
        utterance.contour = static_cast<Contour>(contour);
        utterance.silentSeconds = 0.3;
        const Sound sound = render(utterance, traits, 5);
        const double found = leqOver(sound, whispers ? SoundKind::whispered : SoundKind::voiced);
        QVERIFY2(std::abs(found - level) < 0.2, qPrintable(QString::number(found)));
        QVERIFY(std::abs(voicedLevelDbfsA(sound) - level) < 0.2);
    }

    void tremorHasItsRhythm_data()
    {
        QTest::addColumn<double>("hz");
        for (const double hz : {4.0, 5.2, 6.0, 7.0})
            QTest::addRow("%.1f Hz", hz) << hz;
    }
    void tremorHasItsRhythm()
    {
        QFETCH(double, hz);
        VoiceTraits traits = machine();
        traits.tremorHz = hz;
        traits.tremorLevelDb = 2;
        traits.tremorPitchPercent = 0;
        const Sound sound = render(held(5), traits, 3);
        const std::vector<double> level = levels(middle(sound.samples, 0.5, 4));
        QVERIFY(std::abs(strongestSwing(level) - hz) < 0.15); // 4 s tell frequencies 0.25 Hz apart
        QVERIFY(std::abs(swingAt(level, hz) - 2) < 0.3);

        traits.tremorLevelDb = 0;
        traits.tremorPitchPercent = 4;
        const Sound trembling = render(held(5), traits, 3);
        std::vector<double> pitch;
        for (double from = 0.5; from < 4.4; from += 0.01)
            pitch.push_back(periodOf(middle(trembling.samples, from, 0.05)).hz);
        QVERIFY(std::abs(strongestSwing(pitch) - hz) < 0.15);
        // The 50 ms that are looked at even out part of a fast tremor.
        QVERIFY(std::abs(swingAt(pitch, hz) / 120 * 100 - 4) < 1);
    }

    void fadingFades()
    {
        Utterance utterance = held(6);
        utterance.contour = Contour::fading;
        utterance.contourDb = 9;
        const std::vector<double> level = levels(render(utterance, machine(), 1).samples);
        // From 0.5 to 5.5 of 6 s: five sixths of the fall.
        QVERIFY(std::abs(level[50] - level[550] - 9 * 5.0 / 6) < 0.7);
    }

    void rushingGetsFaster()
    {
        Utterance utterance;
        utterance.text = "tap tap tap tap tap tap tap tap tap tap tap tap";
        const Sound steady = render(utterance, machine(), 1);
        utterance.contour = Contour::rushing;
        const Sound rushing = render(utterance, machine(), 1);
        QCOMPARE(rushing.nuclei, 12);
        QVERIFY(std::abs(static_cast<double>(rushing.samples.size()) / static_cast<double>(steady.samples.size()) - 1) <
                0.1);
        // Vowels begin where the level rises from the silence of a closed mouth.
        const auto onsets = [](const Sound& sound) {
            const std::vector<double> level = levels(sound.samples);
            const double loud = *std::max_element(level.begin(), level.end()) - 15;
            std::vector<double> found;
            for (std::size_t i = 1; i < level.size(); ++i)
                if (level[i] >= loud && level[i - 1] < loud)
                    found.push_back(static_cast<double>(i));
            return found;
        };
        const std::vector<double> even = onsets(steady);
        const std::vector<double> hurried = onsets(rushing);
        QCOMPARE(even.size(), std::size_t{12});
        QCOMPARE(hurried.size(), std::size_t{12});
        QVERIFY(std::abs((even[11] - even[8]) / (even[3] - even[0]) - 1) < 0.1);
        QVERIFY((hurried[11] - hurried[8]) / (hurried[3] - hurried[0]) < 0.65);
    }

    void theSameSeedSaysTheSame()
    {
        VoiceTraits traits;
        traits.tremorLevelDb = 1;
        traits.creak = 0.2;
        const Sound once = render(sentence(), traits, 11);
        QVERIFY(render(sentence(), traits, 11).samples == once.samples);
        QVERIFY(render(sentence(), traits, 11).labels == once.labels);
        QVERIFY(render(sentence(), traits, 12).samples != once.samples);
    }

    void labelsSayWhatIsThere()
    {
        Utterance utterance = sentence();
        utterance.silentSeconds = 1;
        utterance.breathSeconds = 0.5;
        const Sound sound = render(utterance, machine(), 2);
        QCOMPARE(sound.labels.front().kind, SoundKind::breath);
        QCOMPARE(sound.labels.front().begin, std::size_t{kRateHz / 2});
        for (std::size_t i = 0; i < kRateHz / 2; ++i)
            QCOMPARE(sound.samples[i], 0.0F);
        QVERIFY(std::abs(leqOver(sound, SoundKind::breath) - (utterance.levelDbfsA - utterance.breathUnderVoiceDb)) <
                0.5);
        std::size_t last = 0;
        bool unvoiced = false;
        for (const Label& each : sound.labels) {
            QVERIFY(each.begin >= last && each.end > each.begin && each.end <= sound.samples.size());
            last = each.end;
            unvoiced = unvoiced || each.kind == SoundKind::unvoiced;
        }
        QVERIFY(unvoiced); // s, t, k
    }

    void itTakesTheTimeGiven()
    {
        for (const double seconds : {2.5, 3.0, 4.0}) {
            Utterance utterance = sentence();
            utterance.seconds = seconds;
            const Sound sound = render(utterance, machine(), 2);
            QVERIFY(std::abs(static_cast<double>(sound.samples.size()) / kRateHz - seconds) < 0.35);
        }
        QVERIFY(std::abs(static_cast<double>(render(held(7), machine(), 2).samples.size()) / kRateHz - 7) < 0.1);
    }

    void nothingIsSaidWithoutLetters()
    {
        for (const char* text : {"", "...", " \n"}) {
            Utterance utterance;
            utterance.text = text;
            utterance.silentSeconds = 0.5;
            const Sound sound = render(utterance, machine(), 1);
            QCOMPARE(sound.samples.size(), std::size_t{kRateHz / 2});
            QVERIFY(sound.labels.empty());
        }
    }

    void glidesGoAnOctave()
    {
        Utterance utterance = held(4);
        utterance.melody = Melody::rising;
        const Sound sound = render(utterance, machine(200), 1);
        const double low = periodOf(middle(sound.samples, 0.2, 0.08)).hz;
        const double high = periodOf(middle(sound.samples, 3.6, 0.08)).hz;
        QVERIFY(std::abs(12 * std::log2(high / low) - 12 * 3.4 / 4) < 0.7);
    }
};

QTEST_APPLESS_MAIN(TestVoice)
#include "test_voice.moc"
