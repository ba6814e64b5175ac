// The participant's way through, without a widget, a socket or a sound.
#include "app/join/join_model.h"
#include "tests/app/join/class_here.h"

#include <QBuffer>
#include <QtTest>

using namespace vh;
using namespace vh::join;
using namespace vh::testing;

namespace
{

using Kind = Wish::Kind;

AskView askOf(const JoinModel& model)
{
    return std::get<AskView>(model.view(nullptr));
}
WaitView waitOf(const JoinModel& model)
{
    return std::get<WaitView>(model.view(nullptr));
}
CheckView checkOf(const JoinModel& model)
{
    return std::get<CheckView>(model.view(nullptr));
}
ClassView classOf(const JoinModel& model, const ClassHere& here)
{
    return std::get<ClassView>(model.view(&here.follow));
}
void hear(JoinModel& model, const std::vector<VoiceFrame>& frames)
{
    for (const VoiceFrame& frame : frames)
        model.frame(frame);
}
QList<Kind> kindsOf(const Wishes& wishes)
{
    QList<Kind> kinds;
    for (const Wish& wish : wishes)
        kinds.append(wish.kind);
    return kinds;
}

void knowAll(wire::Welcome& welcome)
{
    welcome.agreements = {{AgreementKind::levelVisible, "leader"},
                          {AgreementKind::resultsKept, "no"},
                          {AgreementKind::attendanceNamed, "yes"},
                          {AgreementKind::nameSeen, "yes"}};
    welcome.where = "Mill Lane 3";
}

/// Somebody known, in class, microphone on.
void intoClass(JoinModel& model, ClassHere& here, int voice = 0)
{
    knowAll(here.welcome);
    model.lineIs(link::LineState::in, {});
    model.earsAre(sound::EarsState::hearing);
    model.welcome(here.welcome, true);
    UsualLevel usual;
    usual.levelDbfsA = -30;
    model.meter().setUsuals({{TaskKind::phrases, usual}});
    model.meter().setRoom(-70);
    (void)model.choose(voice);
}

} // namespace

class TestJoinModel : public QObject
{
    Q_OBJECT
private slots:
    void theFirstTimeGoesFromTheLinkToTheClassOneQuestionAScreen()
    {
        ClassHere here;
        JoinModel model;
        model.startAtEntry({}, {}, {});
        QCOMPARE(askOf(model).fields.size(), std::size_t{3});
        const Wishes come = model.submit({" hall.example.org ", "K7M 42P", "Ruth"});
        QCOMPARE(kindsOf(come), QList{Kind::comeIn});
        QCOMPARE(come.front().value, std::string("hall.example.org"));
        QCOMPARE(come.front().second, std::string("K7M 42P"));
        QCOMPARE(come.front().third, std::string("Ruth"));
        model.connecting("Looking for hall.example.org.");
        QCOMPARE(waitOf(model).words, "Looking for hall.example.org.");
        model.lineIs(link::LineState::atDoor, {});
        model.keyWords({"lantern", "orchard", "pebble", "thimble"});
        QCOMPARE(waitOf(model).keyWords.size(), 4);

        model.lineIs(link::LineState::in, {});
        model.welcome(here.welcome, false);
        const AgreementKind order[] = {AgreementKind::levelVisible, AgreementKind::resultsKept,
                                       AgreementKind::otherLeaders, AgreementKind::attendanceNamed,
                                       AgreementKind::nameSeen};
        QStringList headings;
        for (const AgreementKind kind : order) {
            QVERIFY(model.screen() == Screen::agreements);
            headings.append(askOf(model).heading);
            QVERIFY(!askOf(model).startsOnFirst); // nobody agrees by chance
            const Wishes agree = model.choose(0);
            QCOMPARE(kindsOf(agree), QList{Kind::agree});
            QVERIFY(agree.front().agreement == kind);
        }
        QCOMPARE(headings.removeDuplicates(), 0);
        QVERIFY(model.screen() == Screen::contact);
        const Wishes contact = model.submit({"Mill Lane 3", "Odile, 55 12"});
        QCOMPARE(kindsOf(contact), QList{Kind::contact});
        QCOMPARE(contact.front().second, std::string("Odile, 55 12"));
        QVERIFY(model.screen() == Screen::today);
        QVERIFY(askOf(model).cautions.size() >= 3);
        QCOMPARE(kindsOf(model.choose(0)), (QList{Kind::today, Kind::listen}));
        QVERIFY(model.screen() == Screen::check);
        QVERIFY(!model.today()->checked);
        model.earsAre(sound::EarsState::hearing);
        hear(model, roomFrames(300));
        QVERIFY(!checkOf(model).line.isEmpty());
        QVERIFY(checkOf(model).goOn.isEmpty()); // nothing to press until it is done
        hear(model, voiceFrames(400, -30));
        QCOMPARE(checkOf(model).goOn, "Go on");
        QCOMPARE(kindsOf(model.pressCheck(false)), QList{Kind::checked});
        QVERIFY(model.screen() == Screen::inClass);
        QVERIFY(model.today()->checked);
    }

    void somebodyKnownIsInClassInTwoPresses()
    {
        ClassHere here;
        knowAll(here.welcome);
        here.welcome.where.clear(); // left empty the first time: not asked again every day
        JoinModel model;
        model.connecting("Going to Lakeside voices."); // the first press was on the first screen
        model.lineIs(link::LineState::in, {});
        model.welcome(here.welcome, true);
        QVERIFY(model.screen() == Screen::today);
        QVERIFY(askOf(model).startsOnFirst);
        QCOMPARE(kindsOf(model.choose(0)), (QList{Kind::today, Kind::listen}));
        QVERIFY(model.screen() == Screen::inClass);
        QVERIFY(model.today()->checked);
    }

    void backGoesOneQuestionBackAndFromTheFirstAway()
    {
        ClassHere here;
        JoinModel model;
        model.lineIs(link::LineState::in, {});
        model.welcome(here.welcome, false);
        const QString first = askOf(model).heading;
        (void)model.choose(2); // no, keep it private
        QVERIFY(askOf(model).heading != first);
        QVERIFY(model.goBack().empty());
        QCOMPARE(askOf(model).heading, first);
        QVERIFY(askOf(model).choices[2].chosen); // what was said is shown, and may be changed
        QCOMPARE(model.choose(0).front().value, std::string("leader"));
        QVERIFY(model.goBack().empty());
        QCOMPARE(kindsOf(model.goBack()), QList{Kind::leave});
    }

    void otherLeadersAreAskedForOnlyWhereResultsAreKept()
    {
        ClassHere here;
        JoinModel model;
        model.welcome(here.welcome, false);
        (void)model.choose(0);
        (void)model.choose(1); // results are not kept
        QCOMPARE(askOf(model).heading, "May your attendance be kept under your name?");
    }

    void aWrongCodeComesBackToTheQuestionWithWhatWasTyped()
    {
        JoinModel model;
        model.startAtEntry({}, {}, {});
        (void)model.submit({"hall.example.org", "ACDEFG", "Ruth"});
        model.connecting("Looking for hall.example.org.");
        model.lineIs(link::LineState::ended, "There is no group with this code.");
        QVERIFY(model.screen() == Screen::entry);
        QCOMPARE(askOf(model).notice, "There is no group with this code.");
        QCOMPARE(askOf(model).fields[1].value, "ACDEFG");
        QCOMPARE(askOf(model).fields[2].value, "Ruth");
    }

    void eachFindingOfTheMicCheckIsSaidAndCanBeTriedAgain()
    {
        ClassHere here;
        knowAll(here.welcome);
        const std::pair<std::vector<VoiceFrame>, const char*> findings[] = {
            {voiceFrames(400, -75), "too loud"},
            {voiceFrames(400, -3, Blank::clipping), "turned up"},
            {roomFrames(2500), "voice"},
            {roomFrames(400, -120, Blank::noSignal), "No sound"}};
        for (const auto& [frames, words] : findings) {
            JoinModel model;
            model.lineIs(link::LineState::in, {});
            model.earsAre(sound::EarsState::hearing);
            model.welcome(here.welcome, false);
            (void)model.choose(0);
            hear(model, roomFrames(300));
            hear(model, frames);
            QVERIFY2(checkOf(model).heading.contains(words), words);
            QCOMPARE(checkOf(model).goOn, "Try again");
            QVERIFY(model.pressCheck(false).empty());
            QCOMPARE(checkOf(model).heading, "First, your room");
            QVERIFY(model.pressCheck(true).empty()); // and it can be left out
            QVERIFY(model.screen() == Screen::inClass);
            QVERIFY(!model.today()->checked);
        }
    }

    void theNoticeLineSaysHowItStands_data()
    {
        QTest::addColumn<int>("home");
        QTest::addColumn<QString>("says");
        QTest::newRow("not started") << static_cast<int>(HomeLine::classNotStarted) << "Stop if it hurts";
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
        const QString words = classOf(model, here).notice.words;
        QVERIFY2(says.isEmpty() ? words.isEmpty() : words.contains(says), qPrintable(words));
        // A lost line of one's own, and a lost microphone, come before it.
        model.earsAre(sound::EarsState::deviceLost);
        QVERIFY(classOf(model, here).notice.words.contains("microphone"));
        model.lineIs(link::LineState::lost, {});
        QVERIFY(classOf(model, here).notice.words.contains("coming back by itself"));
        QVERIFY(classOf(model, here).notice.tone == NoticeLine::Tone::heed);
    }

    void agreementsAreReviewedFromTheListOneByOne()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        model.pressAgreements();
        const AskView list = askOf(model);
        QCOMPARE(list.choices.size(), std::size_t{5}); // results are not kept: nobody could read them
        QCOMPARE(list.choices[0].words, "My level is seen by: the leader");
        QVERIFY(model.choose(1).empty());
        QCOMPARE(askOf(model).heading, "May your results be kept?");
        QVERIFY(askOf(model).choices[1].chosen);
        const Wishes agree = model.choose(0);
        QVERIFY(agree.size() == 1 && agree.front().agreement == AgreementKind::resultsKept);
        QCOMPARE(agree.front().value, std::string("yes"));
        QCOMPARE(askOf(model).choices.size(), std::size_t{6}); // back at the list, which now asks that too
        QVERIFY(model.choose(5).empty());
        QCOMPARE(askOf(model).fields[0].value, "Mill Lane 3");
        QCOMPARE(kindsOf(model.submit({"At my sister's", {}})), QList{Kind::contact});
        QVERIFY(model.screen() == Screen::agreed);
        QVERIFY(model.goBack().empty());
        QVERIFY(model.screen() == Screen::inClass);
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
        model.lineIs(link::LineState::in, {});
        model.welcome(here.welcome, true); // the relay has not heard of it yet
        QVERIFY(model.agreements().levelVisible == LevelVisible::nobody);
        QCOMPARE(model.pressPrivate().front().value, std::string("leader"));
        QVERIFY(!classOf(model, here).isPrivate);
    }

    void aCallForHelpIsFollowedToItsEnd()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        QCOMPARE(classOf(model, here).helpWords, "2 helpers are here");
        QCOMPARE(kindsOf(model.pressHelp()), QList{Kind::callHelp});
        QVERIFY(model.pressHelp().empty()); // one call is enough
        QVERIFY(classOf(model, here).notice.words.contains("does not call emergency services"));
        model.lineIs(link::LineState::lost, {});
        QVERIFY(classOf(model, here).notice.words.contains("please telephone"));
        model.lineIs(link::LineState::in, {});
        model.take(wire::ToClient(wire::CallStatus{1, {}, false}));
        QVERIFY(model.pressHelp().empty());
        model.take(wire::ToClient(wire::CallStatus{1, "Bram", false}));
        QVERIFY(classOf(model, here).notice.words.startsWith("Bram has your call."));
        model.take(wire::ToClient(wire::CallStatus{1, "Bram", true}));
        QVERIFY(!classOf(model, here).notice.words.contains("call"));
        QCOMPARE(kindsOf(model.pressHelp()), QList{Kind::callHelp});
        model.refused(Kind::callHelp, "The line has been down for too long.");
        QVERIFY(classOf(model, here).notice.words.contains("did not go out"));
        QCOMPARE(kindsOf(model.pressHelp()), QList{Kind::callHelp});
    }

    void withoutHelpersTheWordsSayWhoHearsACall()
    {
        ClassHere here;
        here.welcome.helpers = 0;
        JoinModel model;
        intoClass(model, here);
        QVERIFY(classOf(model, here).helpWords.contains("the leader"));
        model.take(wire::ToClient(wire::Here{28, 1}));
        QCOMPARE(classOf(model, here).helpWords, "One helper is here");
    }

    void whoOnlyListensIsNotHeardAndNotJudged()
    {
        ClassHere here;
        JoinModel model;
        knowAll(here.welcome);
        model.lineIs(link::LineState::in, {});
        model.welcome(here.welcome, false);
        QCOMPARE(kindsOf(model.choose(2)), QList{Kind::today}); // the microphone is not asked for
        QVERIFY(model.screen() == Screen::inClass);
        UsualLevel usual;
        usual.levelDbfsA = -30;
        model.meter().setUsuals({{TaskKind::phrases, usual}});
        here.place(model, {1, 0, 0, 3});
        hear(model, voiceFrames(400, -24));
        QVERIFY(!model.meter().takeReading());
        here.place(model, {1, 0, 1, 3});
        QVERIFY(!model.meter().takeResult());
        const ClassView view = classOf(model, here);
        QVERIFY(!view.showMeter);
        QVERIFY(view.notice.words.contains("microphone is off"));
        QVERIFY(model.today()->voice == wire::VoiceToday::listening);
    }

    void theSheetShowsTheTurnAndTheMeterItsStanding()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        here.place(model, {1, 0, 1, 2});
        hear(model, voiceFrames(100, -24));
        ClassView view = classOf(model, here);
        QVERIFY(view.sheet.cue.turn == TurnKind::withMe && view.sheet.cue.moreVoice);
        QCOMPARE(view.sheet.text.text, std::string("The loaf comes out golden and warm."));
        QCOMPARE(view.meter.words, "I hear you");
        here.place(model, {1, 0, 1, 3});
        hear(model, voiceFrames(300, -24));
        here.place(model, {1, 1, 0, 0});
        view = classOf(model, here);
        QVERIFY(view.meter.standing == Standing::inBand);
        QCOMPARE(view.others, "27 others are here · Anna leads");
        QCOMPARE(view.rail.current, 1);
    }

    void aWaterPauseAsksNothing()
    {
        ClassScript script = homeClass();
        script.sections[3].steps[0].text = "Drink three sips"; // whatever a script says
        ClassHere here(script);
        JoinModel model;
        intoClass(model, here);
        here.place(model, {3, 0, 0, 0});
        const ClassView view = classOf(model, here);
        QCOMPARE(view.sheet.cue.words, "Water pause");
        QVERIFY(!view.sheet.cue.turn);
        QVERIFY(view.sheet.text.text.empty());
        QVERIFY(view.calm && !view.showMeter);
        QVERIFY(view.notice.words.isEmpty());
    }

    void thePictureIsDecodedOnceAndShown()
    {
        QImage image(8, 8, QImage::Format_RGB32);
        image.fill(Qt::white);
        QByteArray bytes;
        QBuffer buffer(&bytes);
        QVERIFY(image.save(&buffer, "PNG"));
        ClassHere here(homeClass(hexOf(wire::sha256(bytes.toStdString())) + ".png"), bytes);
        JoinModel model;
        intoClass(model, here);
        here.place(model, {1, 0, 0, 0});
        const QImage first = classOf(model, here).sheet.picture;
        QCOMPARE(first.size(), QSize(8, 8));
        here.place(model, {1, 0, 0, 1});
        QCOMPARE(classOf(model, here).sheet.picture.cacheKey(), first.cacheKey());
        here.place(model, {1, 1, 0, 0});
        QVERIFY(classOf(model, here).sheet.picture.isNull());
    }

    void anEndedClassIsOverAndTheMicrophoneIsOff()
    {
        for (const bool writing : {false, true}) {
            ClassHere here;
            JoinModel model;
            intoClass(model, here);
            here.place(model, {1, 0, 0, 3});
            if (writing)
                model.pressWrite();
            here.place(model, {1, 0, 0, 3}, Phase::ended, HomeLine::ended);
            QVERIFY(model.screen() == Screen::over);
            QCOMPARE(waitOf(model).heading, "The class is over");
            QVERIFY(waitOf(model).words.contains("Your microphone is off."));
            QCOMPARE(kindsOf(model.pressWait()), QList{Kind::leave});
        }
    }

    void aTurnIsHeardToItsEndWhileSomebodyWritesOrReadsTheirAgreements()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        here.place(model, {1, 0, 0, 3});
        hear(model, voiceFrames(100, -24));
        model.pressWrite();
        hear(model, voiceFrames(100, -24));
        (void)model.goBack();
        model.pressAgreements();
        hear(model, voiceFrames(100, -24));
        here.place(model, {1, 0, 1, 0});
        const auto result = model.meter().takeResult();
        QVERIFY(result);
        QCOMPARE(result->reading.voicedMs, 3000U);
    }

    void leavingIsAskedOnceAndStayingIsFirst()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        model.pressLeave();
        QCOMPARE(askOf(model).choices.front().words, "Stay in class");
        QVERIFY(model.choose(0).empty());
        QVERIFY(model.screen() == Screen::inClass);
        model.pressLeave();
        QCOMPARE(kindsOf(model.choose(1)), QList{Kind::leave});
    }

    void whatWasWrittenGoesUpAndIsAnswered()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        here.place(model, {1, 0, 0, 0});
        model.pressWrite();
        QVERIFY(model.submit({"   "}).empty());
        model.pressWrite();
        const Wishes wishes = model.submit({" Good morning "});
        QCOMPARE(kindsOf(wishes), QList{Kind::write});
        QCOMPARE(wishes.front().value, std::string("Good morning"));
        QVERIFY(classOf(model, here).notice.words.contains("helpers"));
        wire::BoardItem item;
        item.name = "Ruth";
        item.text = "Good morning";
        model.take(wire::ToClient(wire::Board{1, {item}}));
        QCOMPARE(classOf(model, here).notice.words, "Ruth: Good morning");
        item.text = std::string(400, 'o');
        model.take(wire::ToClient(wire::Board{2, {item}}));
        QVERIFY(classOf(model, here).notice.words.size() <= 100);
    }

    void aVoiceThatIsSoreIsTakenGently()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here, 1);
        here.place(model, {1, 0, 0, 0});
        QVERIFY(model.today()->voice == wire::VoiceToday::sore);
        QVERIFY(classOf(model, here).notice.words.contains("gently"));
    }
};

QTEST_APPLESS_MAIN(TestJoinModel)
#include "test_join_model.moc"
