// Voices in the room while the person has nothing to say: when they count, how long, and what they do to own turns.
#include "common/home/home_meter.h"
#include "tests/common/home/home_class.h"

#include <QtTest>

#include <utility>

using namespace vh;
using namespace vh::testing;

namespace
{

/// In the phrases of a small class, usual level -30 dB(A).
struct Home {
    Home()
    {
        UsualLevel usual;
        usual.levelDbfsA = -30;
        meter.setUsuals({{TaskKind::phrases, usual}});
        meter.setRoom(-70);
        meter.voiceWasHeard();
        now.phase = Phase::running;
    }
    void turn(std::uint16_t which, const std::vector<VoiceFrame>& frames)
    {
        now.place = {1, 0, 0, which};
        ++now.turnSerial;
        now.turnLength = Millis{5000};
        meter.follow(now, script, 0, kNoon);
        for (const VoiceFrame& frame : frames)
            meter.add(frame);
    }
    /// The end of a turn of one's own.
    std::optional<TurnResult> resultOf(const std::vector<VoiceFrame>& frames)
    {
        turn(kYours, frames);
        turn(kListen, {});
        return meter.takeResult();
    }
    static constexpr std::uint16_t kListen = 0;
    static constexpr std::uint16_t kReady = 1;
    static constexpr std::uint16_t kYours = 3;
    ClassScript script = smallClass();
    wire::PlaceNow now;
    HomeMeter meter;
};

} // namespace

class TestOtherVoices : public QObject
{
    Q_OBJECT
private slots:
    void aTelevisionInListenMakesOwnTurnsUntellable()
    {
        Home home;
        home.turn(Home::kListen, voiceFrames(400, -26));
        home.turn(Home::kReady, voiceFrames(200, -26));
        const auto result = home.resultOf(voiceFrames(500, -24));
        QVERIFY(result);
        QCOMPARE(result->reading.trustPercent, std::uint8_t{0});
        QVERIFY(result->reading.reason == Blank::somebodyElse);
        QVERIFY(home.meter.view().standing == Standing::cantTell);
        QVERIFY(home.meter.view().reason == Blank::somebodyElse);
    }

    void theReadingsOnTheWaySayItToo()
    {
        Home home;
        home.turn(Home::kListen, voiceFrames(400, -26));
        home.turn(Home::kYours, voiceFrames(30, -24));
        const auto reading = home.meter.takeReading();
        QVERIFY(reading && reading->trustPercent == 0 && reading->reason == Blank::somebodyElse);
    }

    void silenceBesideATelevisionIsNotSilence()
    {
        Home home;
        home.turn(Home::kListen, voiceFrames(400, -26));
        for (int i = 0; i < 3; ++i)
            (void)home.resultOf(roomFrames(500));
        QVERIFY(home.meter.view().standing == Standing::cantTell);
    }

    void aVoiceTenDecibelsLouderIsJudged()
    {
        for (const auto& [othersDb, tells] : {std::pair{-34.5F, true}, std::pair{-33.5F, false}}) {
            Home home;
            home.turn(Home::kListen, voiceFrames(400, othersDb));
            const auto result = home.resultOf(voiceFrames(500, -24));
            QVERIFY(result);
            QCOMPARE(result->reading.trustPercent == 100, tells);
            QCOMPARE(home.meter.view().standing == Standing::inBand, tells);
        }
    }

    // Somebody who finishes a sentence late, or says "yes" while the leader shows, is not somebody else.
    void aLateEndOrAWordIsNobodyElse()
    {
        Home home;
        (void)home.resultOf(voiceFrames(500, -24));
        home.turn(Home::kListen, voiceFrames(100, -24));
        home.turn(Home::kListen, roomFrames(150));
        home.turn(Home::kListen, voiceFrames(60, -24));
        home.turn(Home::kReady, roomFrames(200));
        const auto result = home.resultOf(voiceFrames(500, -24));
        QVERIFY(result && result->reading.trustPercent == 100);
    }

    void theyAreForgottenTwentyQuietSecondsLater()
    {
        Home home;
        home.turn(Home::kListen, voiceFrames(400, -26));
        home.turn(Home::kReady, roomFrames(1000));
        QVERIFY(home.resultOf(voiceFrames(500, -24))->reading.trustPercent == 0);
        home.turn(Home::kListen, roomFrames(1200));
        QVERIFY(home.resultOf(voiceFrames(500, -24))->reading.trustPercent == 100);
    }

    void whatIsHeardWhileTheClockIsHeldOrInOwnTurnsIsNotTheirs()
    {
        Home home;
        home.turn(Home::kListen, {});
        home.now.phase = Phase::waiting;
        home.meter.follow(home.now, home.script, 0, kNoon);
        for (const VoiceFrame& frame : voiceFrames(600, -26))
            home.meter.add(frame);
        home.now.phase = Phase::running;
        QVERIFY(home.resultOf(voiceFrames(500, -24))->reading.trustPercent == 100);
        QVERIFY(home.resultOf(voiceFrames(500, -24))->reading.trustPercent == 100);
    }

    // The leader, out of the loudspeaker, is nobody in the room, whether taken away well or badly.
    void theLoudspeakerIsNobodyElse()
    {
        for (const Whose whose : {Whose::loudspeaker, Whose::both, Whose::cantTell}) {
            Home home;
            auto frames = voiceFrames(600, -26);
            for (VoiceFrame& frame : frames) {
                frame.whose = whose;
                frame.leakMeanSquareA = frame.meanSquareA;
            }
            home.turn(Home::kListen, frames);
            QVERIFY(home.resultOf(voiceFrames(500, -30))->reading.trustPercent == 100);
        }
    }

    void anotherMicrophoneHasHeardNobodyYet()
    {
        Home home;
        home.turn(Home::kListen, voiceFrames(400, -26));
        home.meter.useMicrophone();
        home.meter.setRoom(-70);
        QVERIFY(home.resultOf(voiceFrames(500, -24))->reading.trustPercent == 100);
    }
};

QTEST_GUILESS_MAIN(TestOtherVoices)
#include "test_other_voices.moc"
