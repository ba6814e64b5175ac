// The participant's way through, without a relay: what comes over the line is said by the test.
#include "tests/app/join/join_steps.h"

#include <QtTest>

using namespace vh;
using namespace vh::join;
using namespace vh::testing;

namespace
{

/// In class, with every question answered on an earlier day.
void comeIn(JoinModel& model, ClassHere& here)
{
    walkIn(model, here);
    (void)model.choose(0);
    if (model.screen() == Screen::check) // goes in without a greeting
        (void)model.pressCheck(CheckPress::skip);
}

} // namespace

class TestJoinModel : public QObject
{
    Q_OBJECT
private slots:
    void aClassThatEndedWhileTheLineWasDownIsOver()
    {
        ClassHere here;
        JoinModel model;
        comeIn(model, here);
        here.place(model, {1, 0, 0, 3});
        QCOMPARE(model.screen(), Screen::inClass);
        model.lineIs(link::LineState::lost, {});
        wire::Welcome back = here.welcome;
        back.open.reset();
        back.place.reset();
        emit here.line.received(wire::ToClient(back));
        model.lineIs(link::LineState::in, {});
        model.followClass(here.follow, here.clock.now());
        QCOMPARE(model.screen(), Screen::over);
        QVERIFY(std::get<WaitView>(model.view(&here.follow)).words.contains("microphone is off"));
    }

    void whoHasNeverSaidWhereTheyAreMaySayItAnyDay()
    {
        ClassHere here;
        JoinModel model;
        comeIn(model, here);
        QCOMPARE(model.screen(), Screen::inClass);

        ClassHere nowhere;
        JoinModel known;
        known.lineIs(link::LineState::in, {});
        nowhere.welcome.agreements = here.welcome.agreements;
        known.welcome(nowhere.welcome, true); // left it empty on another day
        QCOMPARE(known.screen(), Screen::today);
        QVERIFY(known.choose(3).empty());
        QCOMPARE(known.screen(), Screen::contact);
        const Wishes wishes = known.submit({"Harbour Street 9", ""});
        QCOMPARE(wishes.size(), std::size_t{1});
        QCOMPARE(known.screen(), Screen::today);
        QCOMPARE(std::get<AskView>(known.view(nullptr)).choices.size(), std::size_t{3}); // it is said
    }

    void beforeAnyClassNothingIsOver()
    {
        ClassHere here;
        JoinModel model;
        comeIn(model, here);
        wire::Welcome none = here.welcome;
        none.open.reset();
        emit here.line.received(wire::ToClient(none)); // the day's class is not open yet
        model.followClass(here.follow, here.clock.now());
        QCOMPARE(model.screen(), Screen::inClass);
    }

    void whoIsOutReadsTheReasonAndWhatToDo()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        model.isOut();
        model.lineIs(link::LineState::ended, "Please ring Kim, 555 0123.");
        const WaitView view = waitOf(model);
        QCOMPARE(view.heading, "A helper has asked you to leave today's class");
        QVERIFY(view.words.contains("Please ring Kim, 555 0123."));
        QVERIFY(view.words.contains("You can come in again once this class is over."));
    }

    void leavingWithWordsOnTheirWayIsNotUnawares()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        model.lineIs(link::LineState::lost, {});
        model.pressWrite();
        model.write("Good morning");
        (void)model.send();
        (void)model.goBack();
        model.pressLeave();
        QVERIFY(askOf(model).words.contains("has not gone out yet"));
    }
};

QTEST_GUILESS_MAIN(TestJoinModel)
#include "test_join_endings.moc"
