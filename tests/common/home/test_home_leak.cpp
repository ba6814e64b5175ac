// What a home makes of the leader's voice in its own microphone.
#include "common/home/home_meter.h"
#include "tests/common/home/home_class.h"

#include <QtTest>

using namespace vh;
using namespace vh::testing;

namespace
{

/// In "yours" turns of the phrases, 5 s long, with a usual level of -30 dB(A); this microphone has heard the person.
struct Turning {
    Turning()
    {
        UsualLevel usual;
        usual.levelDbfsA = -30;
        meter.setUsuals({{TaskKind::phrases, usual}});
        meter.setRoom(-70);
        meter.voiceWasHeard();
        now.phase = Phase::running;
    }
    std::optional<TurnResult> turn(const std::vector<VoiceFrame>& frames)
    {
        go(3);
        for (const VoiceFrame& frame : frames)
            meter.add(frame);
        go(0);
        return meter.takeResult();
    }
    void go(std::uint16_t turn)
    {
        now.place = {1, 0, 0, turn};
        ++now.turnSerial;
        now.turnLength = Millis{5000};
        meter.follow(now, script, 0, kNoon);
    }
    ClassScript script = smallClass();
    wire::PlaceNow now;
    HomeMeter meter;
};

std::vector<VoiceFrame> ofWhom(std::vector<VoiceFrame> frames, Whose whose, float leakDbfsA)
{
    for (VoiceFrame& frame : frames) {
        frame.whose = whose;
        frame.leakMeanSquareA = std::pow(10.0F, leakDbfsA / 10);
    }
    return frames;
}

} // namespace

class TestHomeLeak : public QObject
{
    Q_OBJECT
private slots:
    void theResultSaysHowMuchOfTheLoudspeakerIsInTheVoice()
    {
        Turning home;
        const auto result = home.turn(ofWhom(voiceFrames(500, -26), Whose::person, -46));
        QVERIFY(result);
        QVERIFY(std::abs(result->around.leakDb + 20) < 0.1F);
        QCOMPARE(result->reading.reason, Blank::none);
        QCOMPARE(home.turn(voiceFrames(500, -26))->around.leakDb, -120.0F);
    }

    void whatCannotBeToldApartIsSaidToBeSo()
    {
        for (const Whose whose : {Whose::both, Whose::cantTell}) {
            Turning home;
            const auto result = home.turn(ofWhom(voiceFrames(500, -26, Blank::loudspeakerTooLoud), whose, -28));
            QVERIFY(result && result->reading.trustPercent == 0);
            QCOMPARE(result->reading.reason, Blank::loudspeakerTooLoud);
            QCOMPARE(home.meter.view().standing, Standing::cantTell);
            QCOMPARE(home.meter.view().reason, Blank::loudspeakerTooLoud);
        }
    }

    // 12 dB under the usual level: a soft voice could be under it.
    void underALoudLoudspeakerNobodyIsCalledSilent()
    {
        Turning home;
        for (int i = 0; i < 3; ++i)
            home.turn(ofWhom(roomFrames(500, -42), Whose::loudspeaker, -42));
        QCOMPARE(home.meter.view().standing, Standing::cantTell);
        QCOMPARE(home.meter.view().reason, Blank::loudspeakerTooLoud);
    }

    // 30 dB under it: a whisper would have been heard.
    void overAWeakOneSilenceIsSilence()
    {
        Turning home;
        for (int i = 0; i < 3; ++i)
            home.turn(ofWhom(roomFrames(500, -60), Whose::loudspeaker, -60));
        QCOMPARE(home.meter.view().standing, Standing::noVoice);
    }
};

QTEST_APPLESS_MAIN(TestHomeLeak)
#include "test_home_leak.moc"
