// What a person changes from the class screen: each by itself, at once, and to be taken back.
#include "tests/app/join/join_steps.h"

#include <QtTest>

using namespace vh;
using namespace vh::join;
using namespace vh::testing;

class TestChoices : public QObject
{
    Q_OBJECT
private slots:
    void everyChoiceIsOnePressAwayAndHoldsAtOnce()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        model.pressChoices();
        const ChoicesView view = choicesOf(model);
        QCOMPARE(view.rows.size(), std::size_t{6}); // results are not kept: nobody could read them
        QCOMPARE(view.rows[1].words, "My level is seen by");
        QVERIFY(view.rows[1].answers[0].chosen && !view.rows[1].answers[1].chosen);
        const Wishes agree = model.pick(1, 1);
        QCOMPARE(kindsOf(agree), QList{Kind::agree});
        QVERIFY(agree.front().agreement == AgreementKind::levelVisible);
        QCOMPARE(agree.front().value, std::string("leader-and-helpers"));
        QCOMPARE(agree.front().held, Millis{0});
        QVERIFY(model.agreements().levelVisible == LevelVisible::leaderAndHelpers);
        QVERIFY(choicesOf(model).rows[1].answers[1].chosen);
        QVERIFY(model.screen() == Screen::choices); // what has changed is seen
        QVERIFY(model.pick(1, 1).empty());          // the same again changes nothing
        QCOMPARE(kindsOf(model.pick(2, 0)), QList{Kind::agree});
        QCOMPARE(choicesOf(model).rows.size(), std::size_t{7}); // kept results can be read by others
        QVERIFY(model.goBack().empty());
        QVERIFY(model.screen() == Screen::inClass);
    }

    void aSlipOfTheHandIsTakenBack()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        model.pressChoices();
        QVERIFY(choicesOf(model).undo.isEmpty());
        QVERIFY(model.undo().empty());
        (void)model.pick(1, 2);
        QCOMPARE(choicesOf(model).words, "Changed. My level is seen by: nobody.");
        QCOMPARE(choicesOf(model).undo, "back to: the leader");
        QCOMPARE(model.undo().front().value, std::string("leader"));
        QVERIFY(choicesOf(model).undo.isEmpty());
        QVERIFY(model.agreements().levelVisible == LevelVisible::leader);
        (void)model.pick(1, 2);
        (void)model.goBack();
        model.pressChoices();
        QVERIFY(choicesOf(model).undo.isEmpty()); // that was a while ago
    }

    void whatWouldDeleteWaitsSoThatItCanBeTakenBack()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        model.pressChoices();
        QCOMPARE(model.pick(2, 0).front().held, Millis{0});
        const Wishes no = model.pick(2, 1);
        QVERIFY(no.front().held >= Millis{5'000});
        QVERIFY(!model.agreements().resultsKept); // here at once
        QCOMPARE(model.undo().front().value, std::string("yes"));
        QVERIFY(model.agreements().resultsKept);
    }

    void theVoiceOfTodayCanBeChangedInClass()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        model.pressChoices();
        QCOMPARE(kindsOf(model.pick(0, 2)), (QList{Kind::today, Kind::stopListening}));
        QVERIFY(model.isResting());
        QCOMPARE(kindsOf(model.undo()), (QList{Kind::today, Kind::listen}));
        QVERIFY(model.screen() == Screen::choices); // the microphone was checked before
        QCOMPARE(kindsOf(model.pick(0, 1)), QList{Kind::today});
        QVERIFY(model.today()->voice == wire::VoiceToday::sore);
    }

    void whoListenedAndWantsToSpeakHasTheMicrophoneCheckedFirst()
    {
        ClassHere here;
        JoinModel model;
        knowAll(here.welcome);
        model.lineIs(link::LineState::in, {});
        model.welcome(here.welcome, false);
        (void)model.choose(0); // where they were last time
        (void)model.choose(2);
        model.pressChoices();
        QCOMPARE(kindsOf(model.pick(0, 0)), (QList{Kind::today, Kind::listen}));
        QVERIFY(model.screen() == Screen::check);
        QVERIFY(model.pressCheck(CheckPress::skip).empty());
        QVERIFY(model.screen() == Screen::inClass);
    }

    void whereIAmIsAskedFromHereToo()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        model.pressChoices();
        model.pressMore();
        QCOMPARE(askOf(model).fields[0].value, "Mill Lane 3");
        QCOMPARE(kindsOf(model.submit({"At my sister's", {}})), QList{Kind::contact});
        QVERIFY(askOf(model).choices[1].chosen); // may somebody ring: as it was answered
        const Wishes ring = model.choose(0);
        QCOMPARE(kindsOf(ring), QList{Kind::agree});
        QVERIFY(ring.front().agreement == AgreementKind::mayRing && ring.front().value == "yes");
        QVERIFY(model.screen() == Screen::choices);
        model.pressMore();
        QVERIFY(model.goBack().empty());
        QVERIFY(model.screen() == Screen::choices);
    }

    void aWrongRowOrAnswerChangesNothing()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        QVERIFY(model.pick(1, 1).empty()); // not on this screen
        model.pressChoices();
        for (const auto& [row, answer] : {std::pair(-1, 0), std::pair(9, 0), std::pair(1, 7), std::pair(0, 5)})
            QVERIFY(model.pick(row, answer).empty());
        QVERIFY(choicesOf(model).undo.isEmpty());
    }
};

QTEST_APPLESS_MAIN(TestChoices)
#include "test_choices.moc"
