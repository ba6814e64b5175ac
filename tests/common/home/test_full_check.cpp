// The mic check in full, question by question, and through the real meter: an ordinary microphone passes, and the usual
// level is the level of the voice.
#include "common/home/full_check.h"
#include "common/signal/level.h"
#include "common/signal/meter.h"
#include "tests/common/home/home_class.h"
#include "tests/common/signal/synthetic.h"

#include <QtTest>

using namespace vh;
using namespace vh::testing;
using Stage = FullCheck::Stage;

namespace
{

void hear(FullCheck& check, const std::vector<VoiceFrame>& frames)
{
    for (const VoiceFrame& frame : frames)
        check.add(frame);
}

void hear(FullCheck& check, Meter& meter, const test::Samples& samples)
{
    meter.push(samples, [&](const VoiceFrame& frame) { check.add(frame); });
}

} // namespace

class TestFullCheck : public QObject
{
    Q_OBJECT
private slots:
    void oneQuestionFollowsTheOtherAsItIsAnswered()
    {
        FullCheck check;
        hear(check, roomFrames(300));
        QCOMPARE(check.stage(), Stage::usual);
        hear(check, voiceFrames(399, -30));
        QVERIFY(!check.isSettling());
        hear(check, voiceFrames(1, -30));
        QVERIFY(check.isSettling());
        hear(check, voiceFrames(100, -30)); // the line's end
        QCOMPARE(check.stage(), Stage::usual);
        hear(check, roomFrames(180));
        QCOMPARE(check.stage(), Stage::vowel);
        hear(check, voiceFrames(250, -31));
        hear(check, roomFrames(250));
        QCOMPARE(check.stage(), Stage::louder);
        hear(check, voiceFrames(150, -24));
        hear(check, roomFrames(250));
        QCOMPARE(check.stage(), Stage::loudspeaker);
        check.skip();
        check.answerPeople(1);
        QCOMPARE(check.stage(), Stage::done);
        QCOMPARE(int(check.finding()), int(CheckFinding::fine));
        QVERIFY(std::abs(*check.facts().usualDbfsA + 30) < 0.01F);
        QVERIFY(std::abs(*check.facts().vowelDbfsA + 31) < 0.01F);
        QVERIFY(std::abs(*check.facts().louderDbfsA + 24) < 0.01F);
    }

    void whoSpeaksInTheQuietSecondsIsWaitedForAWhile()
    {
        FullCheck check;
        hear(check, voiceFrames(200, -30));
        hear(check, roomFrames(299));
        QCOMPARE(check.stage(), Stage::room);
        hear(check, roomFrames(1));
        QCOMPARE(check.stage(), Stage::usual);
        FullCheck talk;
        hear(talk, voiceFrames(900, -30));
        QCOMPARE(talk.stage(), Stage::usual);
        QVERIFY(!talk.facts().roomDbfsA);
    }

    void theFirstReadingIsDropped()
    {
        FullCheck check;
        hear(check, roomFrames(300));
        hear(check, voiceFrames(100, -20));
        hear(check, voiceFrames(300, -30));
        QVERIFY(std::abs(*check.facts().usualDbfsA + 30) < 0.01F);
    }

    void nothingEndsBecauseTimeIsOver()
    {
        FullCheck check;
        hear(check, roomFrames(300));
        hear(check, roomFrames(60'000)); // ten minutes
        QCOMPARE(check.stage(), Stage::usual);
        QVERIFY(check.needsHint());
    }

    void whoTalksOnIsNotKeptForEver()
    {
        FullCheck check;
        hear(check, roomFrames(300));
        hear(check, voiceFrames(400, -30));
        hear(check, voiceFrames(600, -30));
        QCOMPARE(check.stage(), Stage::vowel);
    }

    void aQuestionGoneBackToIsAskedAnew()
    {
        FullCheck check;
        QVERIFY(!check.goBack());
        hear(check, roomFrames(300));
        hear(check, voiceFrames(400, -30));
        hear(check, roomFrames(200));
        QVERIFY(check.goBack());
        QCOMPARE(check.stage(), Stage::usual);
        QCOMPARE(check.progress(), 0.0F);
        hear(check, voiceFrames(400, -36));
        QVERIFY(std::abs(*check.facts().usualDbfsA + 36) < 0.01F);
    }

    void aLineThatStaysDeadIsSaidAtOnce()
    {
        FullCheck check;
        hear(check, roomFrames(300, -120, Blank::noSignal));
        QCOMPARE(check.stage(), Stage::usual);
        hear(check, roomFrames(400, -120, Blank::noSignal));
        QCOMPARE(check.stage(), Stage::done);
        QCOMPARE(int(check.finding()), int(CheckFinding::noSound));
    }

    void aRoomOfDigitalSilenceUnderALivingVoiceIsAGate()
    {
        FullCheck check;
        hear(check, roomFrames(300, -120, Blank::noSignal));
        hear(check, voiceFrames(450, -30));
        hear(check, roomFrames(200, -120));
        for (int i = 0; i < 3; ++i)
            check.skip();
        check.answerPeople(1);
        QCOMPARE(int(check.finding()), int(CheckFinding::gated));
    }

    void withoutAVoiceTheLoudspeakerIsAskedNext()
    {
        FullCheck check;
        hear(check, roomFrames(300));
        hear(check, roomFrames(2000));
        check.skip();
        QCOMPARE(check.stage(), Stage::loudspeaker);
        check.skip();
        check.answerPeople(1);
        QCOMPARE(int(check.finding()), int(CheckFinding::noVoice));
    }

    void whatIsNeverPlayedDoesNotHoldTheCheckUp()
    {
        FullCheck check;
        check.skip(); // the room
        check.skip(); // the lines: without a voice nothing is held, or said louder
        QCOMPARE(check.stage(), Stage::loudspeaker);
        check.play({0, 10, 20, 30, 30});
        for (int i = 0; i < 500; ++i)
            check.addPlayed(roomFrames(1).front(), 1e-7F, 0);
        QCOMPARE(check.stage(), Stage::people);
        QVERIFY(!check.facts().played);
    }

    void anOrdinaryMicrophonePassesThroughTheRealMeter()
    {
        FullCheck check;
        Meter meter;
        test::Vowel vowel;
        vowel.pitchHz = 140;
        const auto part = [&](double seconds, double db) {
            hear(check, meter,
                 test::mixed(test::joined({test::sing(vowel, seconds, db), test::silence(3)}),
                             test::whiteNoise(seconds + 3, -72)));
        };
        hear(check, meter, test::whiteNoise(3.2, -72));
        part(5, -30);
        QCOMPARE(check.stage(), Stage::vowel);
        part(3, -30);
        part(2, -24);
        QCOMPARE(check.stage(), Stage::loudspeaker);
        check.skip();
        check.answerPeople(1);
        QCOMPARE(int(check.finding()), int(CheckFinding::fine));
        QVERIFY(std::abs(*check.facts().louderDbfsA - *check.facts().usualDbfsA - 6) < 0.5F);
    }
};

QTEST_APPLESS_MAIN(TestFullCheck)
#include "test_full_check.moc"
