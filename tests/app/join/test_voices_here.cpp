// Whose voice is heard, in words, and the way to being heard by all: only after one's own yes, and not after its end.
#include "app/join/voices_here.h"
#include "tests/app/join/join_steps.h"
#include "tests/app/join/scenes.h"

#include <QtTest>

using namespace vh;
using namespace vh::join;
using namespace vh::testing;

namespace
{

constexpr std::uint32_t kOwn = 41;

wire::VoiceNow voice(wire::VoiceState state, const char* name = "Anna")
{
    return {1, state, 7, state == wire::VoiceState::none ? "" : name};
}

wire::Speaking speaking(std::uint64_t seq, bool on, std::uint32_t stream, bool you, const char* name = "")
{
    wire::Speaking said;
    said.seq = seq;
    said.on = on;
    said.stream = stream;
    said.you = you;
    said.name = name;
    return said;
}

VoicesHere playing()
{
    VoicesHere here;
    here.loudspeakerIs(sound::LoudspeakerState::playing);
    return here;
}

QString lineOf(const VoicesHere& here)
{
    return here.line().words.value(0);
}

} // namespace

class TestVoicesHere : public QObject
{
    Q_OBJECT
private slots:
    void theLineSaysWhoIsHeard()
    {
        VoicesHere here = playing();
        QCOMPARE(lineOf(here), QString());
        here.voiceIs(voice(wire::VoiceState::carried));
        QCOMPARE(lineOf(here), "You hear Anna");
        QCOMPARE(here.leadersStream(), std::optional(7U));
        here.voiceIs(voice(wire::VoiceState::muted));
        QCOMPARE(lineOf(here), "Anna is silent for a moment");
        QVERIFY(!here.leadersStream());
        here.voiceIs(voice(wire::VoiceState::elsewhere));
        QCOMPARE(lineOf(here), "Anna's voice comes through your other call");
        QVERIFY(here.comesFromElsewhere());
        here.voiceIs(voice(wire::VoiceState::none));
        QCOMPARE(lineOf(here), QString());
    }

    void itNeverSaysThatSomebodyIsHeardWhoIsNot()
    {
        VoicesHere here = playing();
        here.voiceIs(voice(wire::VoiceState::carried));
        here.soundComes(false);
        QCOMPARE(lineOf(here), "No sound from Anna just now");
        here.soundComes(true);
        here.loudspeakerIs(sound::LoudspeakerState::deviceLost);
        QCOMPARE(lineOf(here), "You cannot hear Anna just now");
        QVERIFY(here.advice().startsWith("No sound can be played. Please plug"));
        here.loudspeakerIs(sound::LoudspeakerState::opening);
        QCOMPARE(lineOf(here), "You hear Anna");
        QCOMPARE(here.advice(), QString());
        here.lineIsLost();
        QCOMPARE(lineOf(here), QString());
    }

    void aLostLoudspeakerMattersOnlyWhereSomethingIsToBePlayed()
    {
        VoicesHere here;
        here.loudspeakerIs(sound::LoudspeakerState::noDevice);
        QCOMPARE(here.advice(), QString());
        here.voiceIs(voice(wire::VoiceState::elsewhere));
        QCOMPARE(here.advice(), QString());
        here.voiceIs(voice(wire::VoiceState::carried));
        QVERIFY(!here.advice().isEmpty());
    }

    void anotherPersonWhoIsHeardByAllIsNamedWhereTheyAgreed()
    {
        VoicesHere here = playing();
        here.voiceIs(voice(wire::VoiceState::carried));
        here.speakingIs(speaking(2, true, 9, false, "Ines"));
        QCOMPARE(lineOf(here), "You hear Anna and Ines");
        QCOMPARE(here.guestsStream(), std::optional(9U));
        here.speakingIs(speaking(3, true, 9, false));
        QCOMPARE(lineOf(here), "You hear Anna and one of the group");
        here.voiceIs(voice(wire::VoiceState::muted));
        QCOMPARE(lineOf(here), "You hear one of the group");
        here.speakingIs(speaking(4, false, 9, false));
        QVERIFY(!here.guestsStream());
    }

    void aLongNameIsShortenedInTheLine()
    {
        VoicesHere here = playing();
        here.voiceIs(voice(wire::VoiceState::carried, "Bartholomea von Hohenstein-Lichtenberg"));
        QVERIFY(lineOf(here).size() < 36);
        QVERIFY(here.line().words.size() > 1); // and there is a shorter wording
    }

    void onlyAYesMakesHeard()
    {
        VoicesHere here = playing();
        here.speakingIs(speaking(1, true, kOwn, true)); // the hall says so, nobody was asked
        QVERIFY(!here.isHeard());
        QVERIFY(here.takeUnwanted());
        QVERIFY(!here.takeUnwanted());
        here.speakingIs(speaking(2, false, kOwn, true));
        here.invitedIs({true, "Anna"});
        QVERIFY(here.isAsked());
        here.speakingIs(speaking(3, true, kOwn, true)); // not answered yet
        QVERIFY(!here.isHeard());
        QVERIFY(here.answer(true, kOwn));
        QVERIFY(!here.isHeard()); // until the hall carries it
        here.speakingIs(speaking(4, true, kOwn, true));
        QVERIFY(here.isHeard());
        QCOMPARE(here.ownStream(), kOwn);
    }

    void aNoIsANo()
    {
        VoicesHere here = playing();
        here.invitedIs({true, "Anna"});
        QVERIFY(here.answer(false, kOwn));
        QVERIFY(!here.isAsked());
        QVERIFY(!here.answer(true, kOwn)); // no question stands any more
        here.speakingIs(speaking(1, true, kOwn, true));
        QVERIFY(!here.isHeard());
    }

    void eitherSideEndsIt_data()
    {
        QTest::addColumn<int>("how");
        QTest::newRow("one's own press") << 0;
        QTest::newRow("the leader's") << 1;
        QTest::newRow("the line is lost") << 2;
        QTest::newRow("somebody else is heard") << 3;
    }
    void eitherSideEndsIt()
    {
        QFETCH(int, how);
        VoicesHere here = playing();
        here.invitedIs({true, "Anna"});
        QVERIFY(here.answer(true, kOwn));
        here.speakingIs(speaking(1, true, kOwn, true));
        QVERIFY(here.isHeard());
        if (how == 0)
            QVERIFY(here.end());
        else if (how == 1)
            here.speakingIs(speaking(2, false, kOwn, true));
        else if (how == 2)
            here.lineIsLost();
        else
            here.speakingIs(speaking(2, true, 99, false, "Ines"));
        QVERIFY(!here.isHeard());
        here.speakingIs(speaking(9, true, kOwn, true)); // an old yes does not count again
        QVERIFY(!here.isHeard());
        QVERIFY(!here.end());
    }

    void theOneForAllAfterOnesOwnChangesNothing()
    {
        VoicesHere here = playing();
        here.invitedIs({true, "Anna"});
        QVERIFY(here.answer(true, kOwn));
        here.speakingIs(speaking(5, true, kOwn, true, "Ruth"));
        here.speakingIs(speaking(5, true, kOwn, false)); // the same news, for everybody
        QVERIFY(here.isHeard());
        QVERIFY(!here.guestsStream());
    }

    void aQuestionTakenBackIsGone()
    {
        VoicesHere here = playing();
        here.invitedIs({true, "Anna"});
        here.invitedIs({false, {}});
        QVERIFY(!here.isAsked());
        QVERIFY(!here.answer(true, kOwn));
    }

    void anAnswerThatCameTooLateEndsInNothing()
    {
        VoicesHere here = playing();
        here.invitedIs({true, "Anna"});
        QVERIFY(here.answer(true, kOwn));
        here.invitedIs({false, {}}); // taken back meanwhile
        here.speakingIs(speaking(1, true, kOwn, true));
        QVERIFY(!here.isHeard());
        QVERIFY(here.takeUnwanted());
    }

    void theQuestionStandsOverAnyScreenOfTheClassAndTheScreenIsThereAgain()
    {
        SceneClass here;
        JoinModel model;
        intoClass(model, here);
        here.place(model, {1, 0, 0, 0});
        model.pressWrite();
        model.take(wire::ToClient(wire::InvitedToSpeak{true, "Anna"}));
        const auto view = std::get<InvitationView>(model.view(&here.follow));
        QCOMPARE(view.question, "Anna would like everybody to hear you. May they?");
        const Wishes no = model.answerInvitation(false, 5);
        QCOMPARE(kindsOf(no), {Kind::speakAnswer});
        QVERIFY(!no.front().on);
        QCOMPARE(model.screen(), Screen::writing);
        QCOMPARE(kindsOf(model.answerInvitation(true, 5)), QList<Kind>());
    }

    void beforeTheClassScreenTheQuestionWaits()
    {
        SceneClass here;
        JoinModel model;
        model.lineIs(link::LineState::in, {});
        model.welcome(here.welcome, false);
        model.take(wire::ToClient(wire::InvitedToSpeak{true, "Anna"}));
        QVERIFY(std::holds_alternative<AskView>(model.view(&here.follow)));
    }

    void aWelcomeTellsOfAQuestionThatStands()
    {
        SceneClass here;
        JoinModel model;
        intoClass(model, here);
        here.welcome.invited = wire::InvitedToSpeak{true, "Anna"};
        here.welcome.voice = voice(wire::VoiceState::muted);
        model.welcome(here.welcome, true);
        QVERIFY(model.voices().isAsked());
        QCOMPARE(lineOf(model.voices()), "Anna is silent for a moment");
    }

    void onesOwnEndSaysSoToTheHallOnce()
    {
        SceneClass here;
        JoinModel model;
        intoClass(model, here);
        model.take(wire::ToClient(wire::InvitedToSpeak{true, "Anna"}));
        (void)model.answerInvitation(true, kOwn);
        model.take(wire::ToClient(speaking(1, true, kOwn, true)));
        QVERIFY(model.voices().isHeard());
        QCOMPARE(kindsOf(model.endBeingHeard()), {Kind::endSpeaking});
        QCOMPARE(kindsOf(model.endBeingHeard()), QList<Kind>());
    }
};

QTEST_GUILESS_MAIN(TestVoicesHere)
#include "test_voices_here.moc"
