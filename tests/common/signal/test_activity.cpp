#include "common/signal/meter.h"
#include "tests/common/signal/synthetic.h"

#include <QtTest>

using namespace vh;
using namespace vh::test;

namespace
{
/// Pushes a sound through a whole meter and keeps what it said; its last 60 ms over again, so that all frames come out.
struct Heard {
    explicit Heard(const Samples& samples)
    {
        const auto keep = [this](const VoiceFrame& frame) { frames.push_back(frame); };
        meter.push(samples, keep);
        meter.push(std::span(samples).last(Meter::kDelayFrames * 480), keep);
    }
    /// Share of frames voiced from one second to another.
    [[nodiscard]] double voiced(double fromSeconds, double toSeconds) const
    {
        const auto from = frames.begin() + std::lround(fromSeconds * 100);
        const auto to = frames.begin() + std::lround(toSeconds * 100);
        return static_cast<double>(std::count_if(from, to, [](const VoiceFrame& f) { return f.voiced; })) /
               static_cast<double>(to - from);
    }
    [[nodiscard]] double floorAt(double seconds) const
    {
        return frames[static_cast<std::size_t>(std::lround(seconds * 100)) - 1].noiseFloorDbfsA;
    }
    [[nodiscard]] bool blankBetween(double fromSeconds, double toSeconds, Blank blank) const
    {
        return std::all_of(frames.begin() + std::lround(fromSeconds * 100),
                           frames.begin() + std::lround(toSeconds * 100),
                           [blank](const VoiceFrame& f) { return f.blank == blank; });
    }
    Meter meter;
    std::vector<VoiceFrame> frames;
};

/// A-weighted level of a sound by itself.
double levelA(const Samples& samples)
{
    Meter meter;
    meter.push(samples, [](const VoiceFrame&) {});
    return meter.leqA().leqDb();
}
/// Scales to an A-weighted level.
Samples atLevelA(const Samples& samples, double db)
{
    return atLevel(samples, dbOf(samples) + db - levelA(samples));
}

QByteArray said(double value)
{
    return QByteArray::number(value);
}
} // namespace

class TestActivity : public QObject
{
    Q_OBJECT
private slots:
    void floorIsTheMeanOfASteadyRoom()
    {
        const Heard heard(atLevelA(whiteNoise(8, -60), -60));
        for (const double t : {1.0, 3.0, 8.0})
            QVERIFY2(std::abs(heard.floorAt(t) + 60) < 1.0, said(heard.floorAt(t)));
    }

    void aFifteenSecondVowelDoesNotPullTheFloorUp()
    {
        const Samples room = atLevelA(whiteNoise(20, -60), -65);
        const Heard heard(mixed(room, sing({.pitchHz = 180}, 15, -30), 2));
        QVERIFY2(std::abs(heard.floorAt(2) + 65) < 1.0, said(heard.floorAt(2)));
        QVERIFY2(std::abs(heard.floorAt(17) + 65) < 1.5, said(heard.floorAt(17)));
        QVERIFY2(std::abs(heard.floorAt(20) + 65) < 1.0, said(heard.floorAt(20)));
        QVERIFY2(heard.voiced(2.2, 17) > 0.99, said(heard.voiced(2.2, 17)));
    }

    // Vowel from the very first sample: nothing was heard of the room yet, and the voice must not be taken for it.
    void aVowelFromTheFirstSampleIsVoiceAndNotTheRoom()
    {
        const Heard heard(mixed(atLevelA(whiteNoise(8, -60), -60), sing({}, 6, -30)));
        QVERIFY2(heard.voiced(0.2, 6) > 0.99, said(heard.voiced(0.2, 6)));
        QVERIFY(heard.floorAt(6) < -50);
        QVERIFY2(std::abs(heard.floorAt(8) + 60) < 1.5, said(heard.floorAt(8)));
    }

    void speechWithPausesLeavesTheFloorAtTheRoom()
    {
        Samples sound = atLevelA(whiteNoise(24, -60), -55);
        for (int i = 0; i < 60; ++i)
            sound = mixed(std::move(sound), sing({.pitchHz = 140, .seed = static_cast<std::uint64_t>(i)}, 0.22, -30),
                          1 + 0.36 * i);
        const Heard heard(sound);
        QVERIFY2(std::abs(heard.floorAt(22) + 55) < 2.0, said(heard.floorAt(22)));
    }

    void theFloorFollowsTheRoomUpAndDown()
    {
        const Heard heard(joined({atLevelA(whiteNoise(4, -60), -60), atLevelA(whiteNoise(8, -60, 2), -40),
                                  atLevelA(whiteNoise(4, -60, 3), -60)}));
        QVERIFY2(std::abs(heard.floorAt(12) + 40) < 1.0, said(heard.floorAt(12)));
        QVERIFY2(std::abs(heard.floorAt(13.5) + 60) < 1.0, said(heard.floorAt(13.5)));
        QVERIFY2(heard.voiced(0, 16) < 0.01, said(heard.voiced(0, 16)));
    }

    // What never dips for 45 s is the room, whatever it sounds like: a buzz too unsteady to be known for a machine.
    void whatNeverPausesBecomesTheRoom()
    {
        const Samples endless = mixed(sing({.pitchHz = 100}, 55, -40), atLevelA(whiteNoise(55, -60), -70));
        const Heard heard(endless);
        QVERIFY2(heard.voiced(5, 35) > 0.95, said(heard.voiced(5, 35)));
        QVERIFY2(heard.voiced(52, 55) < 0.3, said(heard.voiced(52, 55)));
    }

    void noiseOfEveryLevelIsNotVoice()
    {
        for (const double db : {-20.0, -40.0, -60.0, -80.0}) {
            const Heard heard(whiteNoise(10, db, static_cast<std::uint64_t>(-db)));
            QVERIFY2(heard.voiced(0, 10) < 0.005, said(heard.voiced(0, 10)));
        }
    }

    void mainsHumIsNotVoice()
    {
        for (const double hz : {50.0, 60.0, 100.0, 120.0}) {
            const Heard heard(mixed(hum(hz, 3, 10, 8, -35), whiteNoise(8, -70)));
            QVERIFY2(heard.voiced(0, 8) < 0.01, said(heard.voiced(0, 8)));
        }
    }

    // A buzz has the harmonics of a voice; only its steadiness betrays it, which takes two seconds to see.
    void aSteadyBuzzIsVoiceForTwoSecondsAtMost()
    {
        const Heard heard(mixed(hum(100, 20, 1, 12, -35), whiteNoise(12, -75)));
        QVERIFY2(heard.voiced(2.5, 12) < 0.01, said(heard.voiced(2.5, 12)));
        QVERIFY2(std::abs(heard.floorAt(12) - levelA(hum(100, 20, 1, 2, -35))) < 1.5, said(heard.floorAt(12)));
    }

    void silenceIsNotVoiceAndSoonNoSignal()
    {
        const Heard heard(joined({silence(2), whiteNoise(1, -60), silence(2)}));
        QCOMPARE(heard.voiced(0, 5), 0.0);
        QVERIFY(heard.blankBetween(0, 0.9, Blank::none));
        QVERIFY(heard.blankBetween(1.0, 2, Blank::noSignal));
        QVERIFY(heard.blankBetween(2, 3.9, Blank::none));
        QVERIFY(heard.blankBetween(4.1, 5, Blank::noSignal));
        QVERIFY(heard.meter.noSignal());
    }

    // Digital silence between sounds says nothing of the room.
    void aDeadLineDoesNotLowerTheFloor()
    {
        const Heard heard(joined({atLevelA(whiteNoise(3, -60), -50), silence(3)}));
        QVERIFY2(std::abs(heard.floorAt(6) + 50) < 1.0, said(heard.floorAt(6)));
    }

    void aQuietVowelTenDecibelsOverTheRoomIsVoice_data()
    {
        QTest::addColumn<double>("pitchHz");
        QTest::addColumn<double>("breath");
        for (const double pitch : {85.0, 120.0, 180.0, 240.0, 400.0})
            QTest::addRow("%g Hz", pitch) << pitch << 0.0;
        QTest::newRow("breathy, low") << 110.0 << 0.5;
        QTest::newRow("breathy, high") << 210.0 << 0.5;
    }
    void aQuietVowelTenDecibelsOverTheRoomIsVoice()
    {
        QFETCH(double, pitchHz);
        QFETCH(double, breath);
        const Samples room = atLevelA(whiteNoise(9, -60), -60);
        const Samples vowel = atLevelA(sing({.pitchHz = pitchHz, .breath = breath}, 5, -50), -50);
        const Heard heard(mixed(room, vowel, 2));
        const double begins = pitchHz > 330 ? 2.6 : 2.1; // so high and sudden, it could be a bark for half a second
        QVERIFY2(heard.voiced(begins, 7) > 0.97, said(heard.voiced(begins, 7)));
        QVERIFY2(heard.voiced(0, 2) < 0.005, said(heard.voiced(0, 2)));
        QVERIFY2(heard.voiced(7.35, 9) < 0.005, said(heard.voiced(7.35, 9))); // hangover
        QVERIFY(heard.blankBetween(2.5, 7, Blank::none));
    }

    void vowelsOfEveryColourAreVoice()
    {
        const double vowels[][3] = {{300, 800, 2300}, {300, 2200, 3000}, {500, 1900, 2500}, {450, 900, 2400}};
        for (const auto& f : vowels) {
            const Samples room = atLevelA(whiteNoise(6, -60), -60);
            for (const double pitch : {95.0, 200.0}) {
                const Vowel vowel{.pitchHz = pitch, .formantsHz = {f[0], f[1], f[2]}};
                const Heard heard(mixed(room, atLevelA(sing(vowel, 4, -40), -42), 1));
                QVERIFY2(heard.voiced(1.1, 5) > 0.97, said(heard.voiced(1.1, 5)));
            }
        }
    }

    void voiceEndsSoonAfterTheVowel()
    {
        const Heard heard(mixed(atLevelA(whiteNoise(4, -60), -60), sing({}, 1, -25), 1));
        const auto last = std::find_if(heard.frames.rbegin(), heard.frames.rend(),
                                       [](const VoiceFrame& frame) { return frame.voiced; });
        const auto frames = heard.frames.rend() - last; // the vowel ends with frame 200
        QVERIFY2(frames >= 200 && frames <= 220, said(static_cast<double>(frames)));
    }

    // 10 lg(1 + 10^-0.6) = 0.97 dB: a voice less than 6 dB over the room cannot be measured within 1 dB.
    void aVoiceTooNearTheRoomIsBlank()
    {
        const Samples room = atLevelA(whiteNoise(6, -60), -40);
        const Heard heard(mixed(room, atLevelA(sing({.pitchHz = 150}, 4, -40), -37), 1));
        int voiced = 0;
        for (const VoiceFrame& frame : heard.frames) {
            voiced += frame.voiced ? 1 : 0;
            QVERIFY(frame.blank == (frame.voiced ? Blank::roomTooNoisy : Blank::none));
        }
        QVERIFY(voiced > 50);
        QCOMPARE(heard.meter.voicedLeqA().count(), 0);
    }

    void anOverdrivenMicrophoneIsBlankAndShownForASecond()
    {
        Samples loud = sing({}, 1, -6);
        for (float& sample : loud)
            sample = std::clamp(sample * 4, -1.0F, 1.0F);
        Heard heard(mixed(whiteNoise(1.5, -70), loud, 0.5));
        QVERIFY(heard.blankBetween(0, 0.5, Blank::none));
        QVERIFY(heard.blankBetween(0.6, 1.5, Blank::clipping));
        QVERIFY(heard.meter.clippingShown());
        QVERIFY(heard.meter.clippedInMeasurement());
        const auto ignore = [](const VoiceFrame&) {};
        heard.meter.push(whiteNoise(0.97, -70), ignore);
        QVERIFY(heard.meter.clippingShown()); // IEC 61672-1:2013 5.11: for at least 1 s
        heard.meter.push(whiteNoise(0.1, -70), ignore);
        QVERIFY(!heard.meter.clippingShown());
        QVERIFY(heard.meter.clippedInMeasurement()); // latched for Leq
        heard.meter.restartMeasurement();
        QVERIFY(!heard.meter.clippedInMeasurement());
    }

    void loudButUnclippedIsNotClipping()
    {
        const Heard heard(sine(440, 1, 20 * std::log10(0.98) - 3.0103));
        QVERIFY(!heard.meter.clippedInMeasurement());
        Samples chance = silence(1); // single samples at the rail are chance
        for (std::size_t i = 0; i < chance.size(); i += 50)
            chance[i] = 1.0F;
        QVERIFY(!Heard(chance).meter.clippedInMeasurement());
    }
};

QTEST_APPLESS_MAIN(TestActivity)
#include "test_activity.moc"
