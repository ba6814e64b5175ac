// The class as the participant's screen has it: where it is, the meter, the end.
#include "tests/app/join/join_steps.h"

#include <QBuffer>
#include <QtTest>

using namespace vh;
using namespace vh::join;
using namespace vh::testing;

class TestClassView : public QObject
{
    Q_OBJECT
private slots:
    void whoOnlyListensIsNotHeardAndNotJudged()
    {
        ClassHere here;
        JoinModel model;
        knowAll(here.welcome);
        model.lineIs(link::LineState::in, {});
        model.welcome(here.welcome, false);
        (void)model.choose(0);                                  // where they were last time
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
        QCOMPARE(view.others, "27 others are here");
        QCOMPARE(view.leads, "Anna leads");
        QCOMPARE(view.rail.current, 1);
    }

    void whatIsSaidOfTheLastTurnSaysSoWhileTheLeaderShows()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        here.place(model, {1, 0, 0, 3});
        hear(model, voiceFrames(300, -29));
        here.place(model, {1, 0, 1, 0});
        for (const std::uint16_t turn : {0, 1}) { // listen, ready
            here.place(model, {1, 0, 1, turn});
            const VoiceMeter::State meter = classOf(model, here).meter;
            QCOMPARE(VoiceMeter::wordsOf(meter), "A little more");
            QCOMPARE(VoiceMeter::whyOf(meter), "your last turn");
        }
        here.place(model, {1, 0, 1, 3});
        QCOMPARE(VoiceMeter::whyOf(classOf(model, here).meter), QString());
    }

    void nothingOldIsSaidToSomebodyWhomEverybodyHears()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        here.place(model, {1, 0, 0, 3});
        hear(model, voiceFrames(300, -29));
        model.take(wire::ToClient(wire::VoiceNow{1, wire::VoiceState::carried, 7, "Anna"}));
        model.take(wire::ToClient(wire::InvitedToSpeak{true, "Anna"}));
        (void)model.answerInvitation(true, 41);
        model.take(wire::ToClient(wire::Speaking{1, true, 41, 2, "Ruth", true}));
        here.place(model, {1, 0, 1, 0});
        QCOMPARE(VoiceMeter::wordsOf(classOf(model, here).meter), QString());
        here.place(model, {1, 0, 1, 3}); // their own turn again
        QCOMPARE(VoiceMeter::wordsOf(classOf(model, here).meter), "A little more");
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

    void aPictureForAllStandsInThePlaceOfTheTextOnlyWhileNobodyIsAskedToSpeak()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        QImage beans(40, 30, QImage::Format_RGB32);
        beans.fill(Qt::darkGreen);
        model.picturesAre({beans, {}, "Ruth: my beans"}, 0);
        const auto shows = [&] { return classOf(model, here).sheet.caption == "Ruth: my beans"; };
        here.place(model, {1, 0, 0, 0}); // she shows the text
        QVERIFY(shows());
        ClassView view = classOf(model, here);
        QVERIFY(view.sheet.cue.turn == TurnKind::listen && view.sheet.text.text.empty());
        QVERIFY(!view.showMeter);
        for (const std::uint16_t turn : {1, 2, 3}) { // ready, with her, alone
            here.place(model, {1, 0, 0, turn});
            view = classOf(model, here);
            QVERIFY(!shows() && !view.sheet.text.text.empty());
        }
        here.clock.advance(here.now.turnLength); // it is over, and she has not gone on
        QVERIFY(shows());
        QVERIFY(!classOf(model, here).sheet.cue.turn);
        here.now.turnSpent = Millis{0};
        here.place(model, {1, 0, 0, 3}, Phase::waiting);
        QVERIFY(shows());
        here.place(model, {3, 0, 0, 0}); // water
        QVERIFY(shows());
        QCOMPARE(classOf(model, here).sheet.cue.words, QString("Water pause"));
        QVERIFY(!classOf(model, here).calm);
        model.lineIs(link::LineState::lost, {});
        QVERIFY(!shows()); // whether it still is shown is not known
        model.lineIs(link::LineState::in, {});
        model.picturesAre({}, 0);
        QVERIFY(!shows() && classOf(model, here).calm);
    }

    void picturesStandOnTheBoardAndOnesOwnAreTakenBackFromTheLargeOne()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        QImage small(24, 18, QImage::Format_RGB32);
        small.fill(Qt::darkGreen);
        model.setPictures([&](const wire::Hash& hash) { return hash[0] == 1 ? small : QImage(); });
        model.pressWrite();
        const auto rows = [&] { return std::get<BoardView>(model.view(&here.follow)).rows; };
        wire::OwnLine own;
        own.item = 7;
        own.kind = wire::ItemKind::picture;
        own.picture = wire::PictureAbout{{1}, 1600, 1200};
        model.take(wire::ToClient(wire::OwnNow{{own}}));
        QCOMPARE(rows().size(), std::size_t{1});
        BoardRow row = rows().back();
        QCOMPARE(row.text, QString("A picture")); // it has no caption
        QCOMPARE(row.picture.cacheKey(), small.cacheKey());
        QCOMPARE(row.below, QString("a helper looks at it first"));
        QCOMPARE(row.act, QString("See it large"));
        auto looked = model.pictureAt(row.key);
        QVERIFY(looked && looked->own && looked->mayTakeBack && looked->hash[0] == 1);

        wire::BoardItem onBoard; // turned and captioned at the desk
        onBoard.item = onBoard.change = 7;
        onBoard.kind = wire::ItemKind::picture;
        onBoard.text = "Ruth's beans";
        onBoard.picture = wire::PictureAbout{{2}, 1200, 1600};
        wire::BoardItem another = onBoard;
        another.item = another.change = 8;
        another.name = "Odile";
        model.take(wire::ToClient(wire::Board{1, {onBoard, another}}));
        row = rows().front();
        QCOMPARE(row.text, QString("Ruth's beans"));
        QCOMPARE(row.below, QString("on the board"));
        QVERIFY(row.picture.height() > row.picture.width()); // its place, until it is here
        looked = model.pictureAt(rows().back().key);
        QVERIFY(looked && !looked->own && !looked->mayTakeBack && looked->name == "Odile");

        const auto wishes = model.pressLine(row.key);
        QCOMPARE(kindsOf(wishes), QList{Kind::takeBackLine});
        QCOMPARE(wishes.front().line, std::uint64_t{7});
        QVERIFY(!model.pictureAt(row.key));
        QVERIFY(rows().front().act.isEmpty() && rows().front().picture.isNull()); // a picture is not written again
        QVERIFY(model.pressLine(row.key).empty());
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
        model.pressChoices();
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

QTEST_APPLESS_MAIN(TestClassView)
#include "test_class_view.moc"
