// What the participant is told while the class runs, and what one press says to others: help, hello, a line.
#include "tests/app/join/join_steps.h"

#include "app/join/advice.h"

#include <QtTest>

using namespace vh;
using namespace vh::join;
using namespace vh::testing;

class TestBeingTold : public QObject
{
    Q_OBJECT
private slots:
    void theNoticeLineSaysHowItStands_data()
    {
        QTest::addColumn<int>("home");
        QTest::addColumn<QString>("says");
        QTest::newRow("not started") << static_cast<int>(HomeLine::classNotStarted) << "";
        QTest::newRow("runs") << static_cast<int>(HomeLine::classRuns) << "";
        QTest::newRow("waits") << static_cast<int>(HomeLine::classWaits) << "Anna is waiting a moment.";
        QTest::newRow("away") << static_cast<int>(HomeLine::leaderAway) << "Anna's line is lost.";
        QTest::newRow("pause") << static_cast<int>(HomeLine::calmPause) << "There is nothing to do.";
        QTest::newRow("stand-in") << static_cast<int>(HomeLine::standInLeads) << "Anna leads now.";
    }
    void theNoticeLineSaysHowItStands()
    {
        QFETCH(const int, home);
        QFETCH(const QString, says);
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        here.place(model, {1, 0, 0, 3}, Phase::running, static_cast<HomeLine>(home));
        const ClassView view = classOf(model, here);
        QVERIFY2(says.isEmpty() ? view.notice.words.isEmpty() : view.notice.words.contains(says),
                 qPrintable(view.notice.words));
        QVERIFY(view.calmWords.startsWith("Stop if it hurts")); // stands there while there is nothing to say
        // A lost line of one's own, and a lost microphone, come before it.
        model.earsAre(sound::EarsState::deviceLost);
        QVERIFY(classOf(model, here).notice.words.contains("microphone"));
        model.lineIs(link::LineState::lost, {});
        QVERIFY(classOf(model, here).notice.words.contains("coming back by itself"));
        QVERIFY(classOf(model, here).notice.tone == NoticeLine::Tone::heed);
    }

    void keepItPrivateHoldsAtOnceEvenWithoutALine()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        model.lineIs(link::LineState::lost, {});
        const Wishes wishes = model.pressPrivate();
        QCOMPARE(kindsOf(wishes), QList{Kind::agree});
        QCOMPARE(wishes.front().value, std::string("nobody"));
        QVERIFY(model.agreements().levelVisible == LevelVisible::nobody);
        QVERIFY(classOf(model, here).isPrivate);
        QCOMPARE(classOf(model, here).sharing.first(), QString("Only you see\nyour level"));
        model.lineIs(link::LineState::in, {});
        model.welcome(here.welcome, true); // the relay has not heard of it yet
        QVERIFY(model.agreements().levelVisible == LevelVisible::nobody);
        QCOMPARE(model.pressPrivate().front().value, std::string("leader"));
        QVERIFY(!classOf(model, here).isPrivate);
        QCOMPARE(classOf(model, here).sharing.first(), QString("The leader sees\nyour level"));
    }

    void aCallForHelpIsFollowedToItsEnd()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        QCOMPARE(classOf(model, here).helpWords.first(), "two helpers are here");
        QCOMPARE(kindsOf(model.pressHelp()), QList{Kind::callHelp});
        QCOMPARE(callOf(model).heading, "Your call has gone out");
        QVERIFY(callOf(model).emergency.contains("does not call the emergency services"));
        QVERIFY(callOf(model).where.contains("Mill Lane 3"));
        QVERIFY(model.pressHelp().empty()); // one call is enough
        QVERIFY(model.goBack().empty());
        QVERIFY(classOf(model, here).notice.words.contains("does not call the emergency services"));
        QCOMPARE(classOf(model, here).helpWords.first(), "your call is out");
        model.lineIs(link::LineState::lost, {});
        QVERIFY(classOf(model, here).notice.words.contains("telephone somebody near you"));
        model.lineIs(link::LineState::in, {});
        model.take(wire::ToClient(wire::CallStatus{1, {}, false}));
        QVERIFY(model.pressHelp().empty()); // shows how it stands
        model.take(wire::ToClient(wire::CallStatus{1, "Bram", false}));
        QCOMPARE(callOf(model).heading, "Bram has your call");
        (void)model.goBack();
        QVERIFY(classOf(model, here).notice.words.startsWith("Bram has your call."));
        model.take(wire::ToClient(wire::CallStatus{1, {}, false})); // whoever had it is gone
        QVERIFY(classOf(model, here).notice.words.startsWith("Your call has gone out"));
        model.take(wire::ToClient(wire::CallStatus{1, "Bram", true}));
        QVERIFY(!classOf(model, here).notice.words.contains("call"));
        QCOMPARE(kindsOf(model.pressHelp()), QList{Kind::callHelp});
        model.refused(Kind::callHelp);
        QVERIFY(classOf(model, here).notice.words.contains("did not go out"));
        QCOMPARE(kindsOf(model.pressHelp()), QList{Kind::callHelp});
    }

    void aCallThatIsClosedWhileItsPageIsOpenCanBeMadeAgain()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        (void)model.pressHelp();
        QVERIFY(model.callHasGoneOut(4).empty());
        model.take(wire::ToClient(wire::CallStatus{4, "Bram", true}));
        QCOMPARE(callOf(model).heading, "Your call is closed");
        QVERIFY(callOf(model).takeBack.isEmpty());
        QCOMPARE(kindsOf(model.pressHelp()), QList{Kind::callHelp});
        QCOMPARE(callOf(model).heading, "Your call has gone out");
    }

    void theButtonSaysWhoIsThereNow_data()
    {
        QTest::addColumn<int>("helpers");
        QTest::addColumn<int>("leaders");
        QTest::addColumn<QString>("words");
        QTest::newRow("two helpers") << 2 << 1 << "two helpers are here";
        QTest::newRow("many") << 12 << 0 << "12 helpers are here";
        QTest::newRow("one helper and the leader") << 1 << 1 << "one helper and the leader";
        QTest::newRow("one helper") << 1 << 0 << "one helper is here";
        QTest::newRow("the leader alone") << 0 << 1 << "the leader is here";
        QTest::newRow("nobody") << 0 << 0 << "nobody is here now";
    }
    void theButtonSaysWhoIsThereNow()
    {
        QFETCH(int, helpers);
        QFETCH(int, leaders);
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        model.take(wire::ToClient(
            wire::Here{28, static_cast<std::uint32_t>(helpers), 0, static_cast<std::uint32_t>(leaders)}));
        QTEST(classOf(model, here).helpWords.first(), "words");
        QCOMPARE(classOf(model, here).notice.words.contains("No helper is here now"), helpers + leaders == 0);
    }

    void withoutAnybodyItSaysWhomToRing()
    {
        ClassHere here;
        here.welcome.helpers = 0;
        here.welcome.whomToRing = "the clinic, 555 0142";
        JoinModel model;
        intoClass(model, here);
        QVERIFY(classOf(model, here).notice.words.contains("ring: the clinic, 555 0142"));
        QCOMPARE(kindsOf(model.pressHelp()), QList{Kind::callHelp}); // it stays for whoever comes
        QVERIFY(callOf(model).words.startsWith("Nobody is here"));
        QVERIFY(callOf(model).ring.contains("the clinic, 555 0142"));
        model.take(wire::ToClient(wire::WhomToRing{2, {}}));
        QVERIFY(callOf(model).ring.contains("somebody near you"));
    }

    void aCallOutlivesTheClass()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        here.place(model, {1, 0, 0, 3});
        (void)model.pressHelp();
        here.place(model, {1, 0, 0, 3}, Phase::ended, HomeLine::ended);
        QVERIFY(std::holds_alternative<CallView>(model.view(&here.follow)));
        (void)model.goBack();
        QCOMPARE(waitOf(model).help, "your call is out"); // and there is a way back to it
        QVERIFY(model.pressHelp().empty());
        QCOMPARE(callOf(model).heading, "Your call has gone out");
    }

    void whatOthersWriteIsGlancedAt()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        here.place(model, {0, 0, 0, 0});
        wire::BoardItem item;
        item.item = 1;
        item.name = "Odile";
        item.text = "Good morning";
        model.take(wire::ToClient(wire::Board{1, {item}}));
        QCOMPARE(classOf(model, here).notice.words, "Odile: Good morning");
        item.item = 2;
        item.text = std::string(400, 'o');
        model.take(wire::ToClient(wire::Board{2, {item}}));
        QVERIFY(classOf(model, here).notice.words.size() <= 100);
    }

    void whoIsAskedForQuietIsToldUntilWhenAndCanStillCallForHelp()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        here.place(model, {3, 0, 0, 0});
        model.pressWrite();
        model.write("But");
        const Instant until = here.clock.now() + Millis{600'000};
        model.take(wire::ToClient(wire::MayWrite{until}));
        const BoardView view = boardOf(model, here);
        QVERIFY(view.writing == BoardView::Writing::paused);
        const QString when = QDateTime::fromMSecsSinceEpoch(until.time_since_epoch().count()).toString("H:mm");
        QCOMPARE(view.notice.words,
                 "A helper has asked you to pause writing until " + when + ". You can call for help at any time.");
        QVERIFY(model.send().empty());
        (void)model.goBack();
        QVERIFY(classOf(model, here).notice.words.contains(when));
        QCOMPARE(kindsOf(model.pressHelp()), QList{Kind::callHelp});
        (void)model.goBack();
        here.clock.advance(Millis{600'000});
        (void)model.lookAtCue({}, here.clock.now()); // time alone ends it
        model.pressWrite();
        QVERIFY(boardOf(model, here).writing == BoardView::Writing::open);
        QCOMPARE(boardOf(model, here).draft, "But");
        QCOMPARE(kindsOf(model.send()), QList{Kind::write});
        model.take(wire::ToClient(wire::MayWrite{here.clock.now() + std::chrono::hours{6}}));
        QVERIFY(boardOf(model, here).notice.words.contains("until the class is over"));
    }

    void aCallHidesNothingOfWhatElseIsWrong()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        (void)model.pressHelp();
        (void)model.callHasGoneOut(4);
        (void)model.goBack();
        here.place(model, {1, 0, 0, 3}, Phase::running, HomeLine::leaderAway);
        QVERIFY(classOf(model, here).notice.words.startsWith("Your call has gone out"));
        QVERIFY(classOf(model, here).alsoNotice.words.startsWith("Anna's line is lost."));
        model.lineIs(link::LineState::lost, {});
        QVERIFY(classOf(model, here).notice.words.startsWith("Your call has gone out"));
        QVERIFY(classOf(model, here).alsoNotice.words.startsWith("The line is lost."));
    }

    void aCallByMistakeIsTakenBack()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        QVERIFY(classOf(model, here).action == NoticeAction::none);
        (void)model.pressHelp();
        QVERIFY(!callOf(model).takeBack.isEmpty());
        (void)model.goBack();
        QVERIFY(classOf(model, here).action == NoticeAction::takeBackCall);
        QVERIFY(model.callHasGoneOut(4).empty());
        const Wishes back = model.pressNotice(NoticeAction::takeBackCall);
        QCOMPARE(kindsOf(back), QList{Kind::takeBackCall});
        QCOMPARE(back.front().call, std::uint64_t{4});
        QVERIFY(classOf(model, here).action == NoticeAction::none);
        QVERIFY(classOf(model, here).notice.words.contains("taken back"));
        QCOMPARE(kindsOf(model.pressHelp()), QList{Kind::callHelp}); // and it can be called again
    }

    void aCallThatIsTakenBackBeforeItWentOutIsTakenBackWhenItHas()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        model.lineIs(link::LineState::lost, {});
        QCOMPARE(kindsOf(model.pressHelp()), QList{Kind::callHelp});
        QVERIFY(model.pressNotice(NoticeAction::takeBackCall).empty()); // nobody knows its number yet
        model.lineIs(link::LineState::in, {});
        model.take(wire::ToClient(wire::CallStatus{7, {}, false}));
        QVERIFY(classOf(model, here).action == NoticeAction::none);
        const Wishes back = model.callHasGoneOut(7);
        QCOMPARE(kindsOf(back), QList{Kind::takeBackCall});
        QCOMPARE(back.front().call, std::uint64_t{7});
    }

    void aSecondThoughtBeforeItWentOutLeavesTheCallAsItIs()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        (void)model.pressHelp();
        (void)model.pressNotice(NoticeAction::takeBackCall);
        QVERIFY(model.pressHelp().empty()); // the one that is on its way
        QVERIFY(model.callHasGoneOut(7).empty());
        (void)model.goBack();
        QVERIFY(classOf(model, here).notice.words.startsWith("Your call has gone out"));
    }

    void helloIsOnePressCountedAndCanBeTakenBack()
    {
        ClassHere here;
        here.welcome.hellos = 13;
        JoinModel model;
        intoClass(model, here);
        here.place(model, {1, 0, 0, 0});
        QCOMPARE(classOf(model, here).leads, "Anna leads \u00b7 13 people have said hello");
        QVERIFY(!classOf(model, here).saidHello);
        const Wishes hello = model.pressHello();
        QCOMPARE(kindsOf(hello), QList{Kind::hello});
        QVERIFY(hello.front().on);
        QVERIFY(classOf(model, here).saidHello);
        QVERIFY(classOf(model, here).leads.contains("you and 13 others")); // at once
        model.take(wire::ToClient(wire::Here{28, 2, 15}));
        QVERIFY(classOf(model, here).leads.contains("you and 14 others")); // as the relay counts
        QVERIFY(!model.pressHello().front().on);
        QVERIFY(!classOf(model, here).saidHello);
        QVERIFY(classOf(model, here).leads.contains("14 people"));
    }

    void aHelloSaidWithoutALineIsSaidWhenItIsBack()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        QVERIFY(!model.helloToSay());
        model.lineIs(link::LineState::lost, {});
        (void)model.pressHello();
        model.lineIs(link::LineState::in, {});
        model.welcome(here.welcome, true);
        QVERIFY(model.helloToSay() == std::optional(true));
        here.welcome.saidHello = true;
        model.welcome(here.welcome, true);
        QVERIFY(!model.helloToSay());
    }

    void eachClassBeginsWithoutAHello()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        (void)model.pressHello();
        model.take(wire::ToClient(here.open)); // the same class, said again
        QVERIFY(classOf(model, here).saidHello);
        wire::ClassOpen other = here.open;
        other.classId = ClassId::random();
        model.take(wire::ToClient(other));
        QVERIFY(!classOf(model, here).saidHello);
    }

    void aPrivateWordStaysForTwentySeconds()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        here.place(model, {1, 0, 0, 3});
        model.take(wire::ToClient(wire::WordHeard{WordKind::kind, "Anna", "A strong beginning, Ruth."}));
        const auto says = [&] { return classOf(model, here).notice.words; };
        QCOMPARE(says(), "Anna, to you alone: A strong beginning, Ruth.");
        QVERIFY(classOf(model, here).notice.tone == NoticeLine::Tone::calm);
        model.tick(kNoon);
        model.tick(kNoon + Millis{19'999});
        QVERIFY(!says().isEmpty());
        model.take(wire::ToClient(wire::WordHeard{WordKind::kind, "Anna", "And once more."}));
        model.tick(kNoon + Millis{20'001}); // the second word has its own time
        QVERIFY(says().contains("once more"));
        model.tick(kNoon + Millis{40'001});
        QVERIFY(says().isEmpty());
    }

    void aTurnThatCannotBeJudgedSaysWhyAndOneThingToDo()
    {
        for (const Blank why : {Blank::noSignal, Blank::clipping, Blank::roomTooNoisy, Blank::loudspeakerTooLoud,
                                Blank::alteredByComputer, Blank::somebodyElse, Blank::setupChanged}) {
            ClassHere here;
            JoinModel model;
            intoClass(model, here);
            here.place(model, {1, 0, 0, 3});
            hear(model, voiceFrames(400, -30, why));
            QVERIFY(classOf(model, here).notice.words.isEmpty()); // words change between turns only
            here.place(model, {1, 0, 1, 0});
            const ClassView view = classOf(model, here);
            QVERIFY(view.meter.standing == Standing::cantTell);
            QVERIFY(!VoiceMeter::whyOf(view.meter).isEmpty());
            QVERIFY(view.notice.words == adviceOn(why) && !view.notice.words.isEmpty());
            QVERIFY((view.action == NoticeAction::checkMicrophone) == (why == Blank::setupChanged));
            if (why == Blank::setupChanged) {
                (void)model.pressNotice(view.action);
                QVERIFY(model.screen() == Screen::check);
                (void)model.pressCheck(CheckPress::skip);
                QVERIFY(model.screen() == Screen::inClass);
            }
            here.place(model, {3, 0, 0, 0});
            QVERIFY(classOf(model, here).notice.words.isEmpty()); // a water pause asks nothing
        }
    }
};

QTEST_APPLESS_MAIN(TestBeingTold)
#include "test_being_told.moc"
