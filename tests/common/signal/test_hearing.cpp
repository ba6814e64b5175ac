// A handful of cases of each promise of voice activity, on voices and noises of the proving ground. How often each is
// kept is measured by tests/bench/bench_ears.cpp; here a rule that is lost shows at once.
#include "common/signal/meter.h"
#include "tests/ground/noises.h"
#include "tests/ground/people.h"

#include <QtTest>

#include <cmath>

using namespace vh;
using namespace vh::ground;

namespace
{

constexpr int kRate = kVoiceRateHz;
constexpr double kRoomDbfsA = -75;
constexpr double kVoiceDbfsA = -45;
constexpr std::size_t kLeadFrames = 200;

double gainOf(double db)
{
    return std::pow(10.0, db / 20);
}

/// A quiet room for two seconds, then `sound` in it.
Samples staged(std::span<const float> sound, double db)
{
    const double seconds = 2.5 + static_cast<double>(sound.size()) / kRate;
    Samples all = roomTone(seconds, 5, kRate);
    for (float& sample : all)
        sample = static_cast<float>(sample * gainOf(kRoomDbfsA));
    mixInto(all, sound, 2 * kRate, gainOf(db));
    return all;
}

std::vector<VoiceFrame> framesOf(const Samples& sound)
{
    std::vector<VoiceFrame> frames;
    Meter meter(kRate);
    meter.push(sound, [&](const VoiceFrame& frame) { frames.push_back(frame); });
    return frames;
}

double voicedShare(std::span<const VoiceFrame> frames)
{
    const auto voiced = std::count_if(frames.begin(), frames.end(), [](const VoiceFrame& f) { return f.voiced; });
    return static_cast<double>(voiced) / static_cast<double>(frames.size());
}

QByteArray said(double value)
{
    return QByteArray::number(value);
}

} // namespace

class TestHearing : public QObject
{
    Q_OBJECT
private slots:
    void everyKindOfVoiceIsHeard_data()
    {
        QTest::addColumn<int>("kind");
        for (const Kind kind : kKinds)
            QTest::newRow(nameOf(kind)) << static_cast<int>(kind);
    }
    void everyKindOfVoiceIsHeard()
    {
        QFETCH(int, kind);
        for (const Said& one : sayings(static_cast<Kind>(kind), 3, 3, 21)) {
            const auto frames = framesOf(staged(one.samples, kVoiceDbfsA));
            const std::vector<bool> speech = speechFrames(one.samples);
            int spoken = 0;
            int heard = 0;
            for (std::size_t i = 0; i < speech.size(); ++i) {
                spoken += speech[i] ? 1 : 0;
                heard += speech[i] && frames[i + kLeadFrames].voiced ? 1 : 0;
            }
            QVERIFY2(heard > 0.6 * spoken, said(static_cast<double>(heard) / spoken));
            QVERIFY(voicedShare(std::span(frames).first(kLeadFrames)) < 0.01);
        }
    }

    void noisesAreNotVoice_data()
    {
        QTest::addColumn<int>("noise");
        QTest::addColumn<double>("most");
        const auto row = [](Noise noise, double most) {
            QTest::newRow(nameOf(noise)) << static_cast<int>(noise) << most;
        };
        row(Noise::breath, 0.04); // what begins suddenly may be taken for a whisper for a third of a second
        row(Noise::cough, 0.12);
        row(Noise::door, 0.05);
        row(Noise::dog, 0.15);
        row(Noise::whistle, 0.02);
        row(Noise::hum, 0.02);
        row(Noise::fan, 0.04);
    }
    void noisesAreNotVoice()
    {
        QFETCH(int, noise);
        QFETCH(double, most);
        for (const std::uint64_t seed : {31, 32, 33}) {
            const auto frames = framesOf(staged(noiseOf(static_cast<Noise>(noise), 12, seed, kRate), kVoiceDbfsA));
            QVERIFY2(voicedShare(frames) <= most, said(voicedShare(frames)));
        }
    }

    // A narrow whistle that begins within a vowel and goes on after it does not keep the voice alive.
    void aWhistleThatOutlastsTheVoiceIsNotPartOfIt()
    {
        for (const std::uint64_t seed : {41, 42, 43}) {
            Samples sound = atActiveLevelA(vowel(2, 150, seed), 0, kRate);
            sound.resize(samplesOf(5, kRate));
            mixInto(sound, oneWhistle(3.5, seed, kRate), samplesOf(1.5, kRate), gainOf(-3));
            const auto frames = framesOf(staged(sound, kVoiceDbfsA));
            QVERIFY(voicedShare(std::span(frames).subspan(kLeadFrames + 10, 185)) > 0.95);
            const double after = voicedShare(std::span(frames).subspan(kLeadFrames + 240, 250));
            QVERIFY2(after < 0.02, said(after));
        }
    }

    void voicedIsConfidenceOfAHalfOrMore()
    {
        const Said one = sayings(Kind::unsteady, 1, 3, 51).front();
        bool sure = false;
        bool unsure = false;
        for (const VoiceFrame& frame : framesOf(staged(one.samples, kVoiceDbfsA))) {
            QVERIFY(frame.confidence >= 0 && frame.confidence <= 1);
            QCOMPARE(frame.voiced, frame.confidence >= 0.5F);
            sure |= frame.confidence > 0.9F;
            unsure |= frame.confidence < 0.1F;
        }
        QVERIFY(sure && unsure);
    }
};

QTEST_APPLESS_MAIN(TestHearing)
#include "test_hearing.moc"
