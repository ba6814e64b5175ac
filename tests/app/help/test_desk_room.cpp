// The helper's desk: pushing state emits nothing, a press exactly one request, keys only in the lists they belong to,
// nothing moves under the eyes; and docs/moderating.md says which key does what.
#include "app/look/look.h"
#include "tests/app/help/desk_fixture.h"

#include <QLineEdit>
#include <QScrollBar>

using namespace vh;
using namespace vh::help;
using namespace vh::testing;
using namespace std::chrono_literals;
using wire::DeskState;

class TestDeskRoom : public QObject
{
    Q_OBJECT
private slots:
    void initTestCase() { QVERIFY(look::Look().applyTo(*qApp)); }

    void pushingStateAsksForNothing()
    {
        Desk desk;
        const Asked asked(desk.room);
        desk.room.setState({});
        desk.show();
        QVERIFY2(asked.isEmpty(), qPrintable(asked.all()));
    }

    // --- keys ------------------------------------------------------------------------------------------------------

    void thePageNamesEachKeyAndItDoesWhatItSays()
    {
        const QHash<QString, QString> expected{
            {"To the board", "show 1"},          {"Set aside", "setAside 1"},       {"To leader", "forLeader 1"},
            {"Clinician", "clinician 1"},        {"Answer", "answer 1 Yes."},       {"Answer all", "answerAll 1 Yes."},
            {"Quiet 10 min", "tenMinutes Rolf"}, {"Quiet, class", "theClass Rolf"}, {"Out\u2026", "out Rolf Yes."},
            {"Take back", "takeBack 0"},         {"What was done", "acts"}};
        const auto rows = documented();
        QCOMPARE(rows.size(), static_cast<std::size_t>(expected.size()));
        QStringList seen;
        for (const DocRow& row : rows) {
            Desk desk;
            const Asked asked(desk.room);
            const BigButton* control = button(desk.room, row.control);
            QVERIFY2(control, qPrintable(row.control));
            QCOMPARE(control->accessibleDescription(), "Key " + row.key);
            QTest::keyClick(&desk.toRead(), row.key[0].toLatin1());
            if (auto* line = qobject_cast<QLineEdit*>(QApplication::focusWidget())) { // an answer is written first
                QVERIFY(asked.isEmpty());
                QTest::keyClicks(line, "Yes.");
                QTest::keyClick(line, Qt::Key_Return);
            }
            QCOMPARE(asked.all(), expected.value(row.control));
            seen << row.key;
        }
        seen.removeDuplicates();
        QCOMPARE(seen.size(), rows.size()); // one key each
    }

    void aControlDoesWhatItsKeyDoes()
    {
        for (const TaskKey& each : taskKeys()) {
            if (each.task == DeskTask::openPicture)
                continue; // on the picture itself
            Desk byKey;
            const Asked asked(byKey.room);
            byKey.press(each.key);
            Desk byHand;
            const Asked askedByHand(byHand.room);
            BigButton* control = button(byHand.room, buttonWords(each.task));
            QVERIFY2(control, each.button);
            QTest::mouseClick(control, Qt::LeftButton);
            QCOMPARE(askedByHand.all(), asked.all());
        }
    }

    void keysMeanNothingWhereSomethingIsWritten()
    {
        Desk desk;
        const Asked asked(desk.room);
        auto* say = named<QLineEdit>(desk.room, "Say to everybody");
        say->setFocus();
        QTest::keyClicks(say, "12 Loaves");
        QVERIFY(asked.isEmpty());
        QTest::keyClick(say, Qt::Key_Return);
        QTest::keyClick(say, Qt::Key_Return); // nothing is left to be said
        QCOMPARE(asked.all(), QString("say 12 Loaves"));
        auto* who = named<QLineEdit>(desk.room, "Name of somebody who only phoned in");
        who->setFocus();
        QTest::keyClicks(who, " Mr Lindqvist ");
        QTest::keyClick(who, Qt::Key_Return);
        QCOMPARE(asked.last(), QString("here Mr Lindqvist"));
    }

    void aBurstOfPressesCountsOnce()
    {
        Desk desk;
        const Asked asked(desk.room);
        desk.press(Qt::Key_1);
        QTest::keyClick(&desk.toRead(), Qt::Key_1); // at the same moment
        QCOMPARE(asked.all(), QString("show 1"));
        desk.press(Qt::Key_1);
        QCOMPARE(asked.all(), QString("show 1|show 2"));
    }

    void withNothingChosenAKeyDoesNothing()
    {
        Desk desk;
        const Asked asked(desk.room);
        desk.toRead().selectionModel()->clear();
        for (const int key : {Qt::Key_1, Qt::Key_4, Qt::Key_5, Qt::Key_7, Qt::Key_9, Qt::Key_Return})
            desk.press(key);
        QVERIFY2(asked.isEmpty(), qPrintable(asked.all()));
    }

    // --- the list ----------------------------------------------------------------------------------------------------

    void onceDecidedHereTheNextIsChosen()
    {
        Desk desk;
        desk.press(Qt::Key_1);
        QCOMPARE(desk.chosen(), 2U);
        desk.take(wire::OnDesk{false, {dealtWith(deskLine(1, "Rolf", "Slugs.", 12), DeskState::goingUp, "Kim")}});
        QCOMPARE(desk.chosen(), 2U);
        desk.press(Qt::Key_2);
        QCOMPARE(desk.chosen(), 3U);
    }

    void whenAllIsReadTheNextToComeIsChosen()
    {
        Desk desk;
        for (const std::uint64_t item : {1U, 2U, 3U}) {
            desk.press(Qt::Key_2);
            desk.take(wire::OnDesk{false, {dealtWith(deskLine(item, "Rolf", "x"), DeskState::setAside, "Kim")}});
        }
        desk.take(wire::OnDesk{false, {deskLine(8, "Lena", "Beans.")}});
        QCOMPARE(desk.chosen(), 8U);
    }

    void whoLooksBackIsNotTakenElsewhereByWhatComes()
    {
        Desk desk;
        for (const std::uint64_t item : {1U, 2U, 3U}) {
            desk.press(Qt::Key_2);
            desk.take(wire::OnDesk{false, {dealtWith(deskLine(item, "Rolf", "x"), DeskState::setAside, "Kim")}});
        }
        desk.press(Qt::Key_Up);
        const std::uint64_t looked = desk.chosen();
        desk.take(wire::OnDesk{false, {deskLine(8, "Lena", "Beans.")}});
        QCOMPARE(desk.chosen(), looked);
    }

    void aKeyNeverFallsOnAnotherLineWhenSomebodyElseDecided()
    {
        Desk desk;
        const Asked asked(desk.room);
        desk.take(wire::OnDesk{false, {dealtWith(deskLine(1, "Rolf", "Slugs.", 12), DeskState::setAside, "Ines")}});
        QCOMPARE(desk.chosen(), 1U);
        desk.press(Qt::Key_1);
        QCOMPARE(asked.all(), QString("told Ines has set it aside. 0 takes that back."));
        desk.press(Qt::Key_0);
        QCOMPARE(asked.last(), QString("takeBack 1"));
    }

    void nothingInSightMovesWhateverComesAndGoes()
    {
        Desk desk;
        wire::OnDesk many{false, {}};
        for (std::uint64_t item = 10; item < 60; ++item)
            many.items.push_back(
                deskLine(item, "Rolf", "Frost and slugs, frost and slugs, all the way down the hill."));
        desk.take(many);
        desk.toRead().setCurrentIndex(desk.toRead().model()->index(20, 0));
        desk.toRead().verticalScrollBar()->setValue(desk.toRead().verticalScrollBar()->value() + 30);
        QApplication::processEvents();
        const auto topOf = [&](std::uint64_t item) {
            return desk.toRead().visualRect(desk.toRead().model()->index(desk.toRead().words()->rowOf(item), 0)).top();
        };
        const std::uint64_t chosen = desk.chosen();
        const int before = topOf(chosen);
        for (std::uint64_t item = 10; item < 60; item += 2) // by others, above, in sight and below
            desk.take(wire::OnDesk{
                false, {dealtWith(deskLine(item, "Rolf", many.items[item - 10].text), DeskState::setAside, "Ines")}});
        desk.take(wire::OnDesk{
            false, {deskLine(4, "Lena", "An older one, that was taken back."), deskLine(99, "Wim", "New.")}});
        (void)desk.model.view(kDeskNow + 5s); // what is out of sight goes
        QApplication::processEvents();
        QVERIFY(desk.toRead().words()->rows().size() < 40);
        QCOMPARE(topOf(chosen), before);
        QCOMPARE(desk.chosen(), chosen);
    }

    void whatIsTakenBackIsChosen()
    {
        Desk desk;
        desk.press(Qt::Key_2);
        desk.take(wire::OnDesk{false, {dealtWith(deskLine(1, "Rolf", "Slugs.", 12), DeskState::setAside, "Kim")}});
        desk.room.chooseToRead(1); // the relay has taken it
        QCOMPARE(desk.chosen(), 2U);
        wire::DeskItem back = deskLine(1, "Rolf", "Slugs.", 12);
        back.change = 4000;
        desk.take(wire::OnDesk{false, {back}});
        QCOMPARE(desk.chosen(), 1U);
    }

    void aLineIsSaidToBeReadHereAfterAMoment()
    {
        Desk desk;
        const Asked asked(desk.room);
        QTRY_COMPARE(asked.claims.join(' '), QString("+1"));
        desk.press(Qt::Key_Down);
        QCOMPARE(asked.claims.join(' '), QString("+1 -1"));
        QTRY_COMPARE(asked.claims.join(' '), QString("+1 -1 +2"));
        desk.room.hide();
        QCOMPARE(asked.claims.join(' '), QString("+1 -1 +2 -2"));
    }

    void whatSomebodyElseReadsIsNotSaidToBeReadHere()
    {
        Desk desk;
        const Asked asked(desk.room);
        desk.take(wire::Claimed{1, "Ines"});
        QTest::qWait(1500); // longer than the moment after which it would be
        QVERIFY(asked.claims.isEmpty());
    }

    void whatIsWithOthersAndOnTheBoardCanBeTakenBack()
    {
        Desk desk;
        const Asked asked(desk.room);
        desk.take(wire::OnDesk{false, {dealtWith(deskLine(2, "Edda", "The same?", 9), DeskState::withLeader, "Ines")}});
        desk.take(wire::Board{1, {{40, 40, wire::ItemKind::line, "Ruth", "Rain.", kDeskNow, false}}});
        for (const char* name : {"Going up, or with others", "On the board"}) {
            auto* list = named<WordList>(desk.room, name);
            QVERIFY(list);
            list->setFocus();
            list->setCurrentIndex(list->model()->index(0, 0));
            QTest::keyClick(list, Qt::Key_0);
            QTest::keyClick(list, Qt::Key_2);
        }
        QCOMPARE(asked.all(), QString("takeBack 2|setAside 2|takeBack 40|setAside 40"));
    }

    void enterOpensAPicture()
    {
        Desk desk;
        const Asked asked(desk.room);
        WordRow row = desk.model.words().toRead().rows()[0];
        desk.press(Qt::Key_Return);
        QVERIFY(asked.isEmpty());
        row.isPicture = true;
        desk.model.words().toRead().put(row, row.item);
        desk.press(Qt::Key_Return);
        QCOMPARE(asked.all(), QString("open 1"));
    }

    // --- writing -----------------------------------------------------------------------------------------------------

    void aDigitTakesAReadyMadeAnswerWhileTheLineIsEmpty()
    {
        Desk desk;
        const Asked asked(desk.room);
        desk.room.setReplies({"Thank you.", "", "Soon."});
        desk.press(Qt::Key_5);
        QWidget* line = QApplication::focusWidget();
        QTest::keyClick(line, Qt::Key_3);
        QTest::keyClicks(line, " 1");
        QTest::keyClick(line, Qt::Key_Return);
        QCOMPARE(asked.all(), QString("answer 1 Soon. 1"));
        QVERIFY(desk.toRead().hasFocus());
        QCOMPARE(desk.chosen(), 2U);
        desk.press(Qt::Key_6);
        QTest::keyClicks(QApplication::focusWidget(), "2 loaves"); // there is no second ready-made answer
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
        QCOMPARE(asked.last(), QString("answerAll 2 2 loaves"));
    }

    void whatWasBegunIsKeptUntilItIsSent()
    {
        Desk desk;
        const Asked asked(desk.room);
        desk.press(Qt::Key_5);
        QTest::keyClicks(QApplication::focusWidget(), "Dear Rolf");
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_Escape);
        QVERIFY(desk.toRead().hasFocus());
        QVERIFY(asked.isEmpty());
        desk.press(Qt::Key_Down);
        desk.press(Qt::Key_5);
        QCOMPARE(qobject_cast<QLineEdit*>(QApplication::focusWidget())->text(), QString());
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_Escape);
        desk.press(Qt::Key_Up);
        desk.press(Qt::Key_5);
        QCOMPARE(qobject_cast<QLineEdit*>(QApplication::focusWidget())->text(), QString("Dear Rolf"));
    }

    void readyMadeAnswersAreAddedChangedAndRemoved()
    {
        Desk desk;
        const Asked asked(desk.room);
        desk.room.setReplies({"Thank you.", "Soon."});
        desk.press(Qt::Key_5);
        QTest::mouseClick(button(desk.room, "Ready-made answers\u2026"), Qt::LeftButton);
        named<QLineEdit>(desk.room, "Ready-made answer 1")->setText("Thanks.");
        named<QLineEdit>(desk.room, "Ready-made answer 2")->clear();
        named<QLineEdit>(desk.room, "Ready-made answer 9")->setText("Until Tuesday.");
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_Escape);
        QCOMPARE(asked.all(), QString("replies Thanks.////////Until Tuesday."));
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_9); // in the answer again, with the new ones
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
        QCOMPARE(asked.last(), QString("answer 1 Until Tuesday."));
    }

    void outNeedsAReason()
    {
        Desk desk;
        const Asked asked(desk.room);
        desk.press(Qt::Key_9);
        QWidget* line = QApplication::focusWidget();
        QTest::keyClick(line, Qt::Key_Return);
        QVERIFY(asked.isEmpty());
        QTest::keyClicks(line, "1, 2: no selling here");
        QTest::keyClick(line, Qt::Key_Return);
        QCOMPARE(asked.all(), QString("out Rolf 1, 2: no selling here"));
    }

    // --- people ------------------------------------------------------------------------------------------------------

    void quietIsEndedWhereItStands()
    {
        Desk desk;
        const Asked asked(desk.room);
        wire::DeskNow rests;
        rests.resting = {{deskPerson("Wim"), "Wim", wire::Rest::tenMinutes, kDeskNow + 8min}};
        desk.take(rests);
        auto* list = named<QListView>(desk.room, "Quiet or out");
        list->setFocus();
        list->setCurrentIndex(list->model()->index(0, 0));
        QTest::keyClick(list, Qt::Key_0);
        QCOMPARE(asked.all(), QString("none Wim"));
    }

    void aNameThatIsTypedIsFoundAndCanBeActedOn()
    {
        Desk desk;
        const Asked asked(desk.room);
        auto* list = named<QListView>(desk.room, "Who is here");
        list->setFocus();
        QTest::keyClicks(list, "Lena"); // L is no task here
        QCOMPARE(list->currentIndex().data().toString(), QString("Lena"));
        QTest::keyClick(list, Qt::Key_7);
        QTest::keyClick(list, Qt::Key_1); // needs a line
        QCOMPARE(asked.all(), QString("tenMinutes Lena"));
    }

    void theDoorIsOnePressEach()
    {
        Desk desk;
        const Asked asked(desk.room);
        wire::Door door;
        door.waiting = {{4, "Marta", "tablet", kDeskNow, ""}};
        desk.take(door);
        for (auto* each : desk.room.findChildren<BigButton*>())
            if (each->accessibleName() == "Turn away Marta")
                QTest::mouseClick(each, Qt::LeftButton);
        QCOMPARE(asked.all(), QString("turnAway 4"));
    }
};

QTEST_MAIN(TestDeskRoom)
#include "test_desk_room.moc"
