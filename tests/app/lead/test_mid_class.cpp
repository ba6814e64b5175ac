// What a leader changes in mid-class: which presses go out, what her sheet says, what her keys ask for.
#include "app/lead/changes_sheet.h"
#include "app/lead/correction.h"
#include "app/lead/lead_model.h"
#include "app/lead/lead_room.h"
#include "app/look/look.h"
#include "app/widgets/big_button.h"
#include "tests/app/lead/lead_fixture.h"
#include "tests/app/lead/lead_states.h"

#include <QLabel>
#include <QListWidget>
#include <QPlainTextEdit>
#include <QSignalSpy>
#include <QTest>

using namespace vh;
using namespace vh::lead;
using namespace vh::testing;

namespace
{

using Kind = ChangeRequest::Kind;
using Sheet = ChangesView::Sheet;

/// smallScript, whose second phrase (20 s) may be left out.
std::shared_ptr<const ClassScript> lightScript()
{
    ClassScript script = *smallScript();
    script.sections[0].steps[1].optionalDearness = 2;
    return std::make_shared<const ClassScript>(script);
}

LeadModel leading(Role role = Role::leader)
{
    LeadModel model;
    model.setLine(LeadModel::LineNow::up);
    model.take(welcomeOf(role), kStart);
    model.take(wire::ClassOpen{1, kClass, "Bread", {}}, kStart);
    model.take(placeAt(1, Phase::notStarted, {}, {}, 4s), kStart);
    model.take(leaseOf(true), kStart);
    model.setScript(lightScript());
    model.take(placeAt(2, Phase::running, {}, kStart, 4s), kStart);
    return model;
}

LeadView viewOf(const LeadModel& model, Instant now)
{
    return model.view(now, {}, [](const std::string&) { return QImage(); });
}

/// A class that began a minute before its plan says.
void letBeLate(LeadModel& model)
{
    wire::PlaceNow place = placeAt(3, Phase::running, {}, kStart, 4s);
    place.startedAt = kStart - 60s;
    model.take(place, kStart);
}

} // namespace

class TestMidClass : public QObject
{
    Q_OBJECT

    static std::vector<ChangeRequest> asked(const QSignalSpy& spy)
    {
        std::vector<ChangeRequest> all;
        for (const auto& call : spy)
            all.push_back(call[0].value<ChangeRequest>());
        return all;
    }
    static void show(LeadRoom& room, const LeadView& view)
    {
        room.resize(1366, 700);
        room.setState(inClass());
        room.show();
        room.activateWindow();
        QTRY_VERIFY(room.isActiveWindow());
        room.setState(view);
        QApplication::processEvents();
    }
    static void key(Qt::Key code, Qt::KeyboardModifiers with = Qt::NoModifier)
    {
        QTest::keyClick(QApplication::focusWidget(), code, with);
    }

private slots:
    void initTestCase()
    {
        qputenv("TZ", "UTC");
        QVERIFY(look::Look().applyTo(*qApp));
        qRegisterMetaType<ChangeRequest>();
    }

    // --- the model -------------------------------------------------------------------------------------------------

    void aJumpNamesTheStepAndWhatSheHadSeen()
    {
        LeadModel model = leading();
        model.showChanges({Kind::showSteps, {}, {}}, kStart);
        const LeadView view = viewOf(model, kStart);
        QCOMPARE(view.changes.sheet, Sheet::steps);
        QCOMPARE(view.changes.wanted, (StepAt{0, 0}));
        QCOMPARE(view.changes.steps.size(), std::size_t{4});
        QCOMPARE(view.changes.steps[0].beside, QString("now"));
        QCOMPARE(view.changes.steps[1].beside, QString("0:20"));
        QCOMPARE(view.changes.steps[2].section, QString("Water pause"));
        const auto lead = model.jumpTo({2, 0}, kStart);
        QVERIFY(lead);
        QCOMPARE(lead->command, CommandKind::jump);
        QCOMPARE(*lead->to, (StepAt{2, 0}));
        QCOMPARE(lead->serial, 2U);
        QVERIFY(!model.jumpTo({2, 0}, kStart)); // a second press before the first was answered
        QCOMPARE(viewOf(model, kStart).changes.sheet, Sheet::none);
    }

    void pressesForMoreTimeAreAddedUpWhileOneIsUnderWay()
    {
        LeadModel model = leading();
        QCOMPARE(model.moreTime(kStart)->more, std::optional(kMoreByOnePress));
        QVERIFY(!model.moreTime(kStart) && !model.moreTime(kStart));
        QVERIFY(!model.moreThatWaited(kStart));
        wire::PlaceNow longer = placeAt(3, Phase::running, {}, kStart, 14s);
        longer.turnSerial = 2;
        model.take(longer, kStart);
        const auto rest = model.moreThatWaited(kStart);
        QVERIFY(rest);
        QCOMPARE(rest->more, std::optional(2 * kMoreByOnePress));
        QCOMPARE(rest->serial, 3U);
        QVERIFY(!model.moreThatWaited(kStart));
        const LeadView view = viewOf(model, kStart + 2s);
        QCOMPARE(view.column.turns.beside.front(), QString("first time \u00B7 0:12 \u00B7 10 s added"));
        QCOMPARE(view.column.turns.beside.back(), QString("0:12"));
    }

    void theAnswerToAnEarlierPressLetsNothingOut()
    {
        LeadModel model = leading();
        (void)model.press(CommandKind::back, kStart);
        const unsigned back = model.pressNumber();
        model.take(placeAt(3, Phase::running, {}, kStart, 4s), kStart); // its place comes before its answer
        (void)model.moreTime(kStart);
        (void)model.moreTime(kStart);
        model.pressAnswered(back, nullptr, kStart);
        QVERIFY(!model.moreThatWaited(kStart));
        model.pressAnswered(model.pressNumber(), nullptr, kStart);
        QVERIFY(model.moreThatWaited(kStart));
    }

    void pressesThatWaitedForARefusedOneAreForgotten()
    {
        LeadModel model = leading();
        (void)model.moreTime(kStart);
        (void)model.moreTime(kStart);
        const Error late{"old-place", "", {}};
        model.pressAnswered(model.pressNumber(), &late, kStart);
        QVERIFY(!model.moreThatWaited(kStart));
    }

    void whatToLeaveOutIsSaidBeforeItIsDone()
    {
        LeadModel model = leading();
        letBeLate(model);
        model.showChanges({Kind::showTrim, {}, {}}, kStart);
        const TrimView trim = viewOf(model, kStart).changes.trim;
        QCOMPARE(trim.headline,
                 QString("The class is 1 minute behind its plan. Without this step, 20 seconds in all, it "
                         "still ends 40 seconds late; no other step may be left out."));
        QCOMPARE(trim.rows.size(), std::size_t{1});
        QCOMPARE(trim.rows[0].words, QString("Who taught you?"));
        QCOMPARE(trim.rows[0].section, QString("Warm loaves"));
        QCOMPARE(trim.rows[0].beside, QString("0:20"));
        const auto lead = model.agreeToTrim(kStart);
        QVERIFY(lead);
        QCOMPARE(lead->command, CommandKind::leaveOut);
        QCOMPARE(lead->leftOut, (LeftOut{{0, 1}}));
        QVERIFY(viewOf(model, kStart).notice.words.contains("left out"));
    }

    void whatIsLeftOutIsPutBackWhileItIsToCome()
    {
        LeadModel model = leading();
        QVERIFY(!model.putBack(kStart));
        wire::PlaceNow place = placeAt(3, Phase::running, {}, kStart, 4s);
        place.leftOut = {{0, 1}};
        model.take(place, kStart);
        model.showChanges({Kind::showTrim, {}, {}}, kStart);
        const LeadView view = viewOf(model, kStart);
        QCOMPARE(view.changes.trim.already, QString("Left out already, and still to come: one step."));
        QVERIFY(view.changes.trim.agree.isEmpty());
        QCOMPARE(view.column.next, QString("Water pause"));
        const auto lead = model.putBack(kStart);
        QVERIFY(lead && lead->leftOut.empty());
    }

    void aProposalStaysUntilOneOfItsStepsHasBegun()
    {
        LeadModel model = leading();
        letBeLate(model);
        model.showChanges({Kind::showTrim, {}, {}}, kStart);
        model.followChanges(kStart + 3s);
        QCOMPARE(viewOf(model, kStart).changes.trim.rows.size(), std::size_t{1});
        wire::PlaceNow begun = placeAt(4, Phase::running, {0, 1, 0, 0}, kStart, 4s);
        begun.startedAt = kStart - 60s;
        model.take(begun, kStart);
        model.followChanges(kStart);
        QVERIFY(viewOf(model, kStart).changes.trim.rows.empty());
        QVERIFY(!model.agreeToTrim(kStart));
    }

    void onlyWhoeverHoldsThePlaceChangesAnythingAndAStandInNoText()
    {
        LeadModel model = leading(Role::standIn);
        QVERIFY(viewOf(model, kStart).column.mayChange);
        model.showChanges({Kind::showText, {}, {}}, kStart);
        QCOMPARE(viewOf(model, kStart).changes.sheet, Sheet::none);
        model.showChanges({Kind::showSteps, {}, {}}, kStart);
        QCOMPARE(viewOf(model, kStart).changes.sheet, Sheet::steps);
        model.take(leaseOf(false), kStart);
        model.followChanges(kStart);
        QCOMPARE(viewOf(model, kStart).changes.sheet, Sheet::none);
        QVERIFY(!viewOf(model, kStart).column.mayChange);
        model.take(leaseOf(true), kStart);
        QCOMPARE(viewOf(model, kStart).changes.sheet, Sheet::none); // and does not come back by itself
    }

    void aCorrectionThatDoesNotGoSaysWhyOnItsSheet()
    {
        LeadModel model = leading();
        model.showChanges({Kind::showText, {}, {}}, kStart);
        QCOMPARE(viewOf(model, kStart).changes.text.where, QString("Warm loaves, step 1 of 2"));
        model.correctionGoesOut();
        QVERIFY(viewOf(model, kStart).changes.text.sending);
        const Error other{"other-past", "", {}};
        model.correctionAnswered(&other, kStart);
        QVERIFY(!viewOf(model, kStart).changes.text.sending);
        QVERIFY(viewOf(model, kStart).changes.text.fault.startsWith("What has been led already"));
        model.correctionAnswered(nullptr, kStart);
        QCOMPARE(viewOf(model, kStart).changes.sheet, Sheet::none);
    }

    void theClassGoesOnWhenItIsCorrected()
    {
        LeadModel model = leading();
        model.take(wire::ClassOpen{5, kClass, "Bread", {wire::Hash{1}}}, kStart);
        QCOMPARE(model.stage(), Stage::inClass);
        QVERIFY(model.place() && model.holdsPlace());
    }

    void aCorrectedTextIsReadAndCheckedAsInAFile()
    {
        const auto script = lightScript();
        const auto corrected = withText(*script, {0, 1}, "Who t<au>ght you?");
        QVERIFY(corrected);
        QCOMPARE(corrected->sections[0].steps[1].text, std::string("Who taught you?"));
        QCOMPARE(corrected->sections[0].steps[1].stretches, (std::vector<Stretch>{{5, 7}}));
        QCOMPARE(corrected->sections[0].steps[0], script->sections[0].steps[0]);
        QCOMPARE(withText(*script, {0, 1}, "Who t<aught").error().code, std::string("bad-mark"));
        QVERIFY(!withText(*script, {0, 1}, ""));
        QCOMPARE(withText(*script, {9, 1}, "x").error().code, std::string("step-unknown"));
    }

    // --- keys and buttons ------------------------------------------------------------------------------------------

    void keysAskForTheSheetsAndForMoreTime()
    {
        LeadRoom room;
        show(room, inClass());
        const QSignalSpy spy(&room, &LeadRoom::changeRequested);
        for (const Qt::Key code : {Qt::Key_J, Qt::Key_X, Qt::Key_I, Qt::Key_E})
            key(code);
        const auto requests = asked(spy);
        QCOMPARE(requests.size(), std::size_t{4});
        QCOMPARE(requests[0].kind, Kind::showSteps);
        QCOMPARE(requests[1].kind, Kind::moreTime);
        QCOMPARE(requests[2].kind, Kind::showTrim);
        QCOMPARE(requests[3].kind, Kind::showText);
        QVERIFY(!requests[3].at);
    }

    void inTheListArrowsChooseEnterGoesThereAndSpaceStillLeads()
    {
        LeadRoom room;
        show(room, withSteps());
        const QSignalSpy spy(&room, &LeadRoom::changeRequested);
        const QSignalSpy commands(&room, &LeadRoom::commandRequested);
        QVERIFY(qobject_cast<const QListWidget*>(QApplication::focusWidget()));
        key(Qt::Key_Down);
        key(Qt::Key_Down);
        key(Qt::Key_E);
        key(Qt::Key_Return);
        const auto requests = asked(spy);
        QCOMPARE(requests.size(), std::size_t{2});
        QCOMPARE(requests[0].kind, Kind::showText);
        QCOMPARE(*requests[0].at, (StepAt{8, 4}));
        QCOMPARE(requests[1].kind, Kind::jump);
        QCOMPARE(*requests[1].at, (StepAt{8, 4}));
        QCOMPARE(commands.size(), 0);
        for (const Qt::Key code : {Qt::Key_Space, Qt::Key_Right, Qt::Key_Left, Qt::Key_PageDown, Qt::Key_PageUp})
            key(code);
        QCOMPARE(commands.size(), 5);
        key(Qt::Key_Escape);
        QCOMPARE(asked(spy).back().kind, Kind::close);
    }

    void theListStaysWhereSheIsWhileTheClassGoesOn()
    {
        LeadRoom room;
        show(room, withSteps());
        key(Qt::Key_Down);
        key(Qt::Key_Down);
        LeadView later = withSteps();
        later.changes.steps[3].when = StepRow::When::past;
        later.changes.steps[4].when = StepRow::When::now;
        room.setState(later);
        const QSignalSpy spy(&room, &LeadRoom::changeRequested);
        key(Qt::Key_Return);
        QCOMPARE(*asked(spy).back().at, (StepAt{8, 4}));
    }

    void enterAgreesToWhatIsProposedAndNeverLeadsOn()
    {
        LeadRoom room;
        show(room, withTrim());
        const QSignalSpy spy(&room, &LeadRoom::changeRequested);
        const QSignalSpy commands(&room, &LeadRoom::commandRequested);
        key(Qt::Key_Return);
        key(Qt::Key_Z);
        QCOMPARE(asked(spy).front().kind, Kind::agree);
        QCOMPARE(asked(spy).back().kind, Kind::putBack);
        room.setState(onTime());
        key(Qt::Key_Return);
        key(Qt::Key_Z);
        QCOMPARE(spy.size(), 2);
        QCOMPARE(commands.size(), 0);
        key(Qt::Key_Space);
        QCOMPARE(commands.size(), 1);
        room.setState(inClass()); // closed: the keyboard is with the class again
        key(Qt::Key_Return);
        QCOMPARE(commands.size(), 2);
    }

    void whatIsTypedStaysAndOnlyACorrectionGoesOut()
    {
        LeadRoom room;
        show(room, withText());
        const QSignalSpy spy(&room, &LeadRoom::changeRequested);
        const QSignalSpy commands(&room, &LeadRoom::commandRequested);
        key(Qt::Key_Return, Qt::ControlModifier);                   // nothing has been changed
        QTest::keyClicks(QApplication::focusWidget(), " Joes bow"); // letters and spaces that are keys of the class
        key(Qt::Key_PageDown);                                      // the clicker
        QCOMPARE(commands.size(), 1);
        LeadView failed = withFault();
        room.setState(failed);
        const auto* text = qobject_cast<const QPlainTextEdit*>(QApplication::focusWidget());
        QVERIFY(text);
        QCOMPARE(text->toPlainText(), withText().changes.text.text + " Joes bow");
        key(Qt::Key_Return, Qt::ControlModifier);
        QCOMPARE(spy.size(), 1);
        QCOMPARE(asked(spy)[0].kind, Kind::correct);
        QCOMPARE(asked(spy)[0].text, text->toPlainText());
    }

    void theMouseGetsThereByTheFootOfTheScriptAndByTheRail()
    {
        LeadRoom room;
        show(room, inClass());
        const QSignalSpy spy(&room, &LeadRoom::changeRequested);
        const auto buttons = room.findChildren<BigButton*>();
        const auto steps =
            std::ranges::find_if(buttons, [](const BigButton* each) { return each->text() == QLatin1String("Steps"); });
        QVERIFY(steps != buttons.end());
        QTest::mouseClick(*steps, Qt::LeftButton);
        QCOMPARE(asked(spy).back().kind, Kind::showSteps);
        auto* rail = room.findChild<ScriptRail*>();
        QTest::mouseClick(rail, Qt::LeftButton, {}, {rail->width() - 20, rail->height() - 10});
        QCOMPARE(asked(spy).back().kind, Kind::showSection);
        QCOMPARE(*asked(spy).back().at, (StepAt{13, 0}));
    }
};

QTEST_MAIN(TestMidClass)
#include "test_mid_class.moc"
