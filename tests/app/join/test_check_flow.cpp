// The participant's way through the mic check: one question a screen, each can be left out and gone back to, nothing
// ends because time is over; the greeting; the meter.
#include "tests/app/join/join_steps.h"

#include <QtTest>

using namespace vh;
using namespace vh::join;
using namespace vh::testing;

namespace
{

CheckAround hearing()
{
    CheckAround around;
    around.ears = sound::EarsState::hearing;
    return around;
}
CheckView shown(const CheckFlow& flow)
{
    return std::get<CheckView>(flow.view(hearing()));
}
AskView asked(const CheckFlow& flow)
{
    return std::get<AskView>(flow.view(hearing()));
}
void hear(CheckFlow& flow, const std::vector<VoiceFrame>& frames)
{
    for (const VoiceFrame& frame : frames)
        (void)flow.frame(frame);
}
void toVowel(CheckFlow& flow)
{
    flow.startFull();
    hear(flow, roomFrames(300));
    hear(flow, voiceFrames(450, -30));
    hear(flow, roomFrames(200));
}
void toResult(CheckFlow& flow, int people = 0)
{
    toVowel(flow);
    for (int i = 0; i < 3; ++i)
        (void)flow.press(CheckPress::skip);
    (void)flow.choose(people);
}

} // namespace

class TestCheckFlow : public QObject
{
    Q_OBJECT
    using Next = CheckFlow::Next;
    using Stage = FullCheck::Stage;
private slots:
    void eachQuestionCanBeLeftOutAndSaysWhatComesOfThat()
    {
        CheckFlow flow;
        toVowel(flow);
        for (const Stage stage : {Stage::vowel, Stage::louder, Stage::loudspeaker}) {
            QCOMPARE(flow.full().stage(), stage);
            QVERIFY(!shown(flow).skip.isEmpty());
            QVERIFY(!shown(flow).skipMeans.isEmpty());
            QVERIFY(flow.press(CheckPress::skip) == Next::stay);
        }
        QCOMPARE(flow.full().stage(), Stage::people);
        QCOMPARE(asked(flow).choices.size(), std::size_t{2});
    }

    void leavingTheFirstQuestionsOutLeavesTheCheckAndNoLevelIsShown()
    {
        CheckFlow flow;
        flow.startFull();
        QVERIFY(shown(flow).skipMeans.contains("level"));
        QVERIFY(flow.press(CheckPress::skip) == Next::inClassUnsure);
    }

    void eachQuestionCanBeGoneBackTo()
    {
        CheckFlow flow;
        toResult(flow);
        for (const Stage stage : {Stage::people, Stage::loudspeaker, Stage::louder, Stage::vowel, Stage::usual}) {
            QVERIFY((stage == Stage::people ? flow.press(CheckPress::back) : flow.goBack()) == Next::stay);
            QCOMPARE(flow.full().stage(), stage);
        }
        QCOMPARE(flow.press(CheckPress::back), Next::stay);
        QCOMPARE(flow.full().stage(), Stage::room);
        QVERIFY(shown(flow).back.isEmpty());
    }

    void whoIsSlowIsWaitedForAndTold()
    {
        CheckFlow flow;
        flow.startFull();
        hear(flow, roomFrames(300));
        QVERIFY(!shown(flow).words.contains("Take your time"));
        hear(flow, roomFrames(30'000)); // five minutes
        QCOMPARE(flow.full().stage(), Stage::usual);
        QVERIFY(shown(flow).words.contains("Take your time"));
        hear(flow, voiceFrames(450, -30));
        QVERIFY(flow.full().isSettling());
    }

    void theLouderLineStandsBesideItsCautions()
    {
        CheckFlow flow;
        toVowel(flow);
        (void)flow.press(CheckPress::skip);
        for (const char* caution : {"hurts", "dizzy", "short of breath", "hoarse"})
            QVERIFY2(shown(flow).words.contains(caution), caution);
    }

    void theVoiceOnTheLoudspeakerIsPlayedOnlyWhenAskedFor()
    {
        CheckFlow flow;
        toVowel(flow);
        (void)flow.press(CheckPress::skip);
        (void)flow.press(CheckPress::skip);
        QVERIFY(!flow.isPlaying());
        QVERIFY(flow.press(CheckPress::goOn) == Next::play);
        flow.play({0, 10, 20, 30, 30});
        QVERIFY(flow.isPlaying());
        QVERIFY(flow.press(CheckPress::goOn) == Next::stay); // once
        QVERIFY(flow.press(CheckPress::skip) == Next::stopPlaying);
        QVERIFY(!flow.isPlaying());
    }

    void aFineCheckGoesIntoClassAndIsKept()
    {
        CheckFlow flow;
        toResult(flow);
        QCOMPARE(shown(flow).heading, wordsOf(CheckFinding::fine).heading);
        QVERIFY(flow.press(CheckPress::goOn) == Next::inClass);
    }

    void everyFindingHasItsOwnWordsAndOneThingToDo()
    {
        QSet<QString> headings;
        for (int i = 0; i <= static_cast<int>(CheckFinding::loudspeakerTooLoud); ++i) {
            const FindingWords words = wordsOf(static_cast<CheckFinding>(i));
            QVERIFY(!words.heading.isEmpty() && !words.words.isEmpty());
            QVERIFY2(!headings.contains(words.heading), qPrintable(words.heading));
            headings.insert(words.heading);
        }
    }

    void twoPeopleAreToldThatNoLevelIsShown()
    {
        CheckFlow flow;
        toResult(flow, 1);
        QVERIFY(shown(flow).notice.contains("no level"));
        QCOMPARE(flow.full().facts().people, 2);
    }

    void aGreetingAsKnownGoesInWithoutAPress()
    {
        CheckFlow flow;
        flow.startGreeting(-30.0F, -70.0F);
        hear(flow, voiceFrames(150, -33));
        for (int i = 0; i < 69; ++i)
            QVERIFY(flow.frame(roomFrames(1).front()) == Next::stay);
        QVERIFY(flow.frame(roomFrames(1).front()) == Next::inClassKnown);
    }

    void aGreetingFarOffAsksForAWholeCheck()
    {
        CheckFlow flow;
        flow.startGreeting(-30.0F, -70.0F);
        hear(flow, voiceFrames(150, -12));
        hear(flow, roomFrames(100));
        QVERIFY(flow.step() == CheckFlow::Step::different);
        QVERIFY(flow.press(CheckPress::skip) == Next::inClassUnsure);
        QVERIFY(flow.press(CheckPress::goOn) == Next::stay);
        QVERIFY(flow.step() == CheckFlow::Step::full);
    }

    void aMetersFiguresCalibrateAndAreCheckedFirst()
    {
        CheckFlow flow;
        toResult(flow);
        flow.setNow(Instant{Millis{5000}});
        (void)flow.press(CheckPress::more);
        (void)flow.press(CheckPress::goOn);
        (void)flow.choose(static_cast<int>(MeterKind::class2));
        hear(flow, voiceFrames(1000, -30));
        QVERIFY(flow.step() == CheckFlow::Step::meterFigures);
        for (const QStringList& wrong : {QStringList{"loud", "30"}, QStringList{"66", "3"}, QStringList{"12", "30"}}) {
            (void)flow.submit(wrong);
            QVERIFY(!asked(flow).notice.isEmpty());
            QVERIFY(!flow.calibration());
        }
        (void)flow.submit({"66,0", "60"});
        QVERIFY(flow.calibration());
        QVERIFY(std::abs(flow.calibration()->offsetDb - (66 + 6.02F + 30)) < 0.01F);
        QVERIFY(flow.calibration()->at == Instant{Millis{5000}});
        QVERIFY(flow.press(CheckPress::goOn) == Next::inClass);
    }
};

QTEST_APPLESS_MAIN(TestCheckFlow)
#include "test_check_flow.moc"
