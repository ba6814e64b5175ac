// The participant's way to the class, without a widget, a socket or a sound.
#include "tests/app/join/join_steps.h"

#include <QtTest>

using namespace vh;
using namespace vh::join;
using namespace vh::testing;

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
                                       AgreementKind::nameSeen,     AgreementKind::addressed,
                                       AgreementKind::mayRing};
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
        model.checkAgain();
        checkFully(model);
        QCOMPARE(checkOf(model).goOn, "Go on");
        QCOMPARE(kindsOf(model.pressCheck(CheckPress::goOn)), QList{Kind::checked});
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
        QVERIFY(model.screen() == Screen::check);
        model.earsAre(sound::EarsState::hearing);
        hear(model, roomFrames(100));
        hear(model, voiceFrames(150, -30)); // "Good morning, everybody": nothing is pressed
        hear(model, roomFrames(80));
        QVERIFY(model.screen() == Screen::inClass);
        QVERIFY(model.today()->checked);
    }

    void whereThePersonIsIsConfirmedByOnePress()
    {
        ClassHere here;
        knowAll(here.welcome);
        here.welcome.ring = "Odile, 55 12";
        JoinModel model;
        model.lineIs(link::LineState::in, {});
        model.welcome(here.welcome, true);
        QVERIFY(model.screen() == Screen::place);
        QVERIFY(askOf(model).words.contains("Mill Lane 3") && askOf(model).words.contains("Odile, 55 12"));
        QVERIFY(askOf(model).startsOnFirst);
        const Wishes same = model.choose(0);
        QCOMPARE(kindsOf(same), QList{Kind::contact}); // said anew: it is so today
        QCOMPARE(same.front().value, std::string("Mill Lane 3"));
        QCOMPARE(same.front().second, std::string("Odile, 55 12"));
        QVERIFY(model.screen() == Screen::today);
        (void)model.goBack();
        QVERIFY(model.choose(1).empty());
        QVERIFY(model.screen() == Screen::contact);
        QCOMPARE(model.submit({"At my sister's", "Odile, 55 12"}).front().value, std::string("At my sister's"));
        QVERIFY(model.screen() == Screen::today);
        model.lineIs(link::LineState::lost, {}); // back after a lost line: not asked again
        model.lineIs(link::LineState::in, {});
        model.welcome(here.welcome, true);
        QVERIFY(model.screen() == Screen::today);
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
};

QTEST_APPLESS_MAIN(TestJoinModel)
#include "test_join_model.moc"
