// The proving ground itself: what it says of its sounds is so, the same on every run, and the outside detector answers.
#include "tests/ground/curve.h"
#include "tests/ground/leak_conditions.h"
#include "tests/ground/noises.h"
#include "tests/ground/reference.h"
#include "tests/ground/trials.h"

#include <QtTest>

#include <cmath>

using namespace vh;
using namespace vh::ground;

namespace
{
constexpr int kRate = kVoiceRateHz;

Samples tone(double hz, double seconds, double amplitude)
{
    Samples samples(samplesOf(seconds, kRate));
    for (std::size_t i = 0; i < samples.size(); ++i)
        samples[i] = static_cast<float>(amplitude * std::sin(2 * M_PI * hz * static_cast<double>(i) / kRate));
    return samples;
}
} // namespace

class TestGround : public QObject
{
    Q_OBJECT
private slots:
    // 1 kHz at amplitude 1 is -3.01 dB whatever the weighting; silence around it is not active.
    void activeLevelIsThatOfWhatSounds()
    {
        Samples sound = tone(1000, 1, 1);
        sound.resize(samplesOf(3, kRate));
        QVERIFY(std::abs(activeLevelA(sound, kRate) + 3.01) < 0.15);
        QVERIFY(std::abs(activeLevelA(atActiveLevelA(sound, -40, kRate), kRate) + 40) < 0.01);
    }

    void everyNoiseIsTheSameOnEveryRunAndAnotherWithAnotherSeed()
    {
        const std::vector<Samples> talk{tone(300, 1, 0.5)};
        for (const Noise noise : kNoises) {
            const Samples once = noiseOf(noise, 6, 5, kRate, talk);
            QCOMPARE(once.size(), samplesOf(6, kRate));
            QVERIFY(once == noiseOf(noise, 6, 5, kRate, talk));
            QVERIFY(once != noiseOf(noise, 6, 6, kRate, talk));
            QVERIFY(std::abs(activeLevelA(once, kRate)) < 0.01);
        }
    }

    void labelsFollowTheSpeechAndBridgeShortPauses()
    {
        Samples sound = tone(300, 1, 0.3);
        sound.resize(samplesOf(1.15, kRate));
        Samples more = tone(300, 1, 0.3);
        sound.insert(sound.end(), more.begin(), more.end()); // 150 ms of silence between
        sound.resize(samplesOf(3.5, kRate));
        sound.insert(sound.end(), more.begin(), more.begin() + kRate / 2); // 1.35 s of silence between
        const std::vector<bool> labels = speechFrames(sound);
        QVERIFY(labels[50] && labels[107] && labels[150] && labels[370]);
        QVERIFY(!labels[230] && !labels[330]);
    }

    // Noise in place of pulses: the whisper keeps level and colour, and loses the period.
    void aWhisperHasTheLevelButNotThePeriod()
    {
        const Samples spoken = vowel(2, 125, 3);
        const Samples air = whispered(spoken, 4);
        QVERIFY(std::abs(activeLevelA(air, kRate) - activeLevelA(spoken, kRate)) < 2);
        const auto likeOnePeriodLater = [](const Samples& s) {
            double sum = 0;
            double energy = 0;
            for (std::size_t i = 8000; i + 128 < 24'000; ++i) {
                sum += static_cast<double>(s[i]) * s[i + 128];
                energy += static_cast<double>(s[i]) * s[i];
            }
            return sum / energy;
        };
        QVERIFY(likeOnePeriodLater(spoken) > 0.5);
        QVERIFY(std::abs(likeOnePeriodLater(air)) < 0.25);
    }

    // Two worked examples of the score interval (Wilson 1927): 0 of 10 gives 0.2775, 10 of 100 gives 0.1744; both
    // computed by hand from the formula and found in common tables of it (from memory).
    void theWilsonIntervalIsAsPublished()
    {
        QVERIFY(std::abs(wilsonUpper(0, 10) - 0.2775) < 0.0002);
        QVERIFY(std::abs(wilsonUpper(10, 100) - 0.1744) < 0.0002);
        QVERIFY(wilsonUpper(0, 1000) < 0.01);
        QVERIFY(wilsonUpper(4, 1000) > 0.01);
    }

    void scoresCountWhatTheySay()
    {
        Score score;
        for (int i = 0; i < 8; ++i)
            score.see(true, i < 6);
        for (int i = 0; i < 4; ++i)
            score.see(false, i < 2);
        QCOMPARE(score.precision(), 0.75);
        QCOMPARE(score.recall(), 0.75);
        QCOMPARE(score.f1(), 0.75);
        QCOMPARE(score.missPercent(), 25.0);
        QCOMPARE(score.falseAlarmPercent(), 50.0);
    }

    void theReferenceHearsSpeechAndNotSilence()
    {
        const auto speech = recordings();
        QVERIFY(!speech.empty());
        const Comparison found = compared(std::span(speech).first(2), std::vector<Condition>{{}}, 3);
        QVERIFY(found.reference[1].f1() > 0.8);
        QVERIFY(found.ours[kVoicedThreshold].f1() > 0.8);
        const std::vector<bool> nothing = referenceVoice(Samples(kRate, 0.0F), 0);
        QCOMPARE(nothing.size(), std::size_t{100});
        QVERIFY(std::count(nothing.begin(), nothing.end(), true) < 10);
    }

    void espeakSpeaks()
    {
        const Samples spoken = espeakSays("Warm bread, please", espeakVariants().front(), 130);
        QVERIFY(spoken.size() > samplesOf(0.8, kRate));
        const auto labels = speechFrames(spoken);
        QVERIFY(std::count(labels.begin(), labels.end(), true) > 60);
    }

    // The whole way from sound to standing, with few turns.
    void aTelevisionThatGoesOnMakesTurnsThatCannotBeTold()
    {
        Trials trials(6, 1, 9);
        for (const Noise noise : {Noise::television, Noise::televisionMusic}) {
            const Tally tally = trials.silent(noise, 6);
            QCOMPARE(tally.praised, 0);
            QCOMPARE(tally.cantTell, 6);
        }
        const Tally quiet = trials.speaking(Kind::modal, std::nullopt, 6, 30);
        QCOMPARE(quiet.silenced, 0);
        QVERIFY(quiet.trusted >= 5);
        QVERIFY(levelErrors(quiet).medianDb < 1);
        QCOMPARE(trials.silent(std::nullopt, 6).praised, 0);
    }

    // A leak of known delay and level is in the microphone, and in it only where the leader spoke.
    void aLeakIsAsLateAndAsLoudAsItSays()
    {
        LeakStore store(2, 2, 4, 5);
        QCOMPARE(store.rooms().size(), std::size_t{2});
        Random random(6);
        LeakScene scene;
        scene.leakDb = -10;
        scene.mostDrift = 0;
        const LeakSession session = leakSession(store, scene, 1, random);
        QCOMPARE(session.mic.size(), session.far.size());
        const double leak = activeLevelA(session.mic, kRate) - kLeakUsualDbfsA;
        QVERIFY2(std::abs(leak + 10) < 2.5, qPrintable(QString::number(leak)));
        const auto firstOver = [](const Samples& samples, float limit) {
            return std::find_if(samples.begin(), samples.end(), [=](float s) { return std::abs(s) > limit; }) -
                   samples.begin();
        };
        const auto late = firstOver(session.mic, 1e-3F) - firstOver(session.far, 1e-2F);
        QVERIFY(late > session.delaySeconds * kRate - 800 && late < session.delaySeconds * kRate + 3200);
    }

    // The whole way once more, with a leader out of the loudspeaker; few turns.
    void theLeaderIsNotTakenForThePerson()
    {
        LeakStore store(2, 3, 6, 7);
        Random random(8);
        LeakScene scene;
        scene.leakDb = -6;
        const LeakTally silent = leakTrials(store, scene, 6, random, 3);
        QCOMPARE(silent.praisedSilent(), 0);
        scene.kind = Kind::modal;
        scene.leakDb = -15;
        const LeakTally speaking = leakTrials(store, scene, 6, random, 3);
        QCOMPARE(speaking.silenced, 0);
        QVERIFY(speaking.yoursSpeaking.below + speaking.yoursSpeaking.praised >= 2);
    }
};

QTEST_APPLESS_MAIN(TestGround)
#include "test_ground.moc"
