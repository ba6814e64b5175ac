// The people's side of the class, by keyboard alone: seats, the table and back, private words, the band, the cover, and
// wrong keys; what is spoken; and that nothing moves the hall.
#include "app/lead/cover_sheet.h"
#include "app/lead/group_window.h"
#include "app/lead/lead_room.h"
#include "app/lead/page_parts.h"
#include "app/lead/seat_panel.h"
#include "app/lead/worth_box.h"
#include "app/look/look.h"
#include "app/widgets/big_button.h"
#include "app/widgets/hall_view.h"
#include "tests/app/lead/lead_states.h"

#include <QAccessible>
#include <QApplication>
#include <QDialog>
#include <QLabel>
#include <QTest>

using namespace vh;
using namespace vh::lead;
using namespace vh::testing;

namespace
{

class Asked : public QStringList
{
public:
    explicit Asked(LeadRoom& room)
    {
        const auto hear = [&](auto signal, const QString& what) {
            QObject::connect(&room, signal, &room, [this, what] { append(what); });
        };
        hear(&LeadRoom::tableRequested, "table");
        hear(&LeadRoom::coverRequested, "cover");
        hear(&LeadRoom::seatCloseRequested, "close");
        hear(&LeadRoom::endRequested, "end");
        hear(&LeadRoom::leaveRequested, "leave");
        hear(&LeadRoom::groupWindowFillRequested, "fill");
        hear(&LeadRoom::groupWindowMoveRequested, "move");
        hear(&LeadRoom::soundCheckRequested, "check");
        hear(&LeadRoom::soundCheckCloseRequested, "checked");
        QObject::connect(&room, &LeadRoom::commandRequested, &room, [this](CommandKind kind) {
            append(kind == CommandKind::goOn ? "goOn" : kind == CommandKind::back ? "back" : "other");
        });
        QObject::connect(&room, &LeadRoom::seatRequested, &room,
                         [this](int seat) { append(QString("seat %1").arg(seat)); });
        QObject::connect(&room, &LeadRoom::worthWordRequested, &room,
                         [this](int line) { append(QString("worth %1").arg(line)); });
        QObject::connect(&room, &LeadRoom::ownWordRequested, &room,
                         [this](int which) { append(QString("word %1").arg(which)); });
        QObject::connect(&room, &LeadRoom::bandRequested, &room,
                         [this](BandMove move) { append(QString("band %1").arg(static_cast<int>(move))); });
    }
    QString take()
    {
        const QString all = join(' ');
        clear();
        return all;
    }
};

LeadView seatOpen(Addressed addressed = Addressed::prompts)
{
    LeadView view = inClass();
    view.hall.panel = panelOf(view.hall.seats[16], addressed);
    return view;
}

void press(LeadRoom& room, Qt::Key key, Qt::KeyboardModifiers with = {})
{
    QWidget* focus = room.window()->focusWidget();
    QTest::keyClick(focus ? focus : &room, key, with);
}

} // namespace

class TestHallSide : public QObject
{
    Q_OBJECT

    static void show(LeadRoom& room, const LeadView& view)
    {
        room.resize(1366, 700);
        room.setState(view);
        room.show();
        room.activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(&room));
    }

private slots:
    void initTestCase()
    {
        QVERIFY(look::Look().applyTo(*qApp));
        QAccessible::setActive(true);
    }

    void aSeatIsFoundAndOpenedByKeysAlone()
    {
        LeadRoom room;
        Asked asked(room);
        show(room, inClass());
        auto* hall = room.findChild<HallView*>();
        for (int tabs = 0; tabs < 30 && !hall->hasFocus(); ++tabs)
            press(room, Qt::Key_Tab);
        QVERIFY(hall->hasFocus());
        press(room, Qt::Key_Right);
        press(room, Qt::Key_Down);
        press(room, Qt::Key_Return);
        QCOMPARE(asked.take(), QString("seat 9"));
        press(room, Qt::Key_Space); // the class's key, also from here
        press(room, Qt::Key_PageDown);
        QCOMPARE(asked.take(), QString("goOn goOn"));
    }

    void theTableIsOneKeyAwayAndBack()
    {
        LeadRoom room;
        Asked asked(room);
        LeadView view = inClass();
        show(room, view);
        room.findChild<HallView*>()->setFocus();
        press(room, Qt::Key_L);
        view.hall.asTable = true;
        room.setState(view);
        auto* table = room.findChild<SeatTable*>();
        QVERIFY(table->isVisible() && table->hasFocus());
        QCOMPARE(table->model()->rowCount(), static_cast<int>(view.hall.seats.size()));
        table->setCurrentIndex(table->model()->index(4, 0));
        press(room, Qt::Key_Return);
        press(room, Qt::Key_L);
        QCOMPARE(asked.take(), QString("table seat 4 table"));
        view.hall.asTable = false;
        room.setState(view);
        QVERIFY(room.findChild<HallView*>()->hasFocus());
    }

    void noReasonIsCutInTheTable_data()
    {
        QTest::addColumn<int>("size");
        QTest::newRow("usual") << 0;
        QTest::newRow("larger") << 1;
        QTest::newRow("largest") << 2;
    }
    void noReasonIsCutInTheTable()
    {
        QFETCH(int, size);
        QVERIFY(look::Look(look::Ground::light, static_cast<look::TextSize>(size)).applyTo(*qApp));
        LeadRoom room;
        LeadView view = inClass();
        view.hall.asTable = true;
        int i = 0;
        for (const Blank reason : {Blank::noSignal, Blank::clipping, Blank::roomTooNoisy, Blank::loudspeakerTooLoud,
                                   Blank::alteredByComputer, Blank::somebodyElse, Blank::setupChanged}) {
            SeatRow& row = view.hall.seats[static_cast<std::size_t>(i++)];
            row.standing = Standing::cantTell;
            row.reason = reason;
            row.overUsualDb.reset();
        }
        show(room, view);
        const auto* table = room.findChild<SeatTable*>();
        const QFontMetrics metrics(look::Look::current().font(look::Type::note));
        for (int row = 0; row < i; ++row) {
            const QModelIndex index = table->model()->index(row, SeatTableModel::standingColumn);
            const QRect cell = table->visualRect(index);
            const QRect room_(0, 0, cell.width() - 26 - 26, 1000);
            const QRect words = metrics.boundingRect(room_, Qt::TextWordWrap, index.data().toString());
            QVERIFY2(words.height() <= cell.height() && words.width() <= room_.width(),
                     qPrintable(index.data().toString()));
        }
        QVERIFY(look::Look().applyTo(*qApp));
    }

    void numbersSendAPrivateWordForEachLine()
    {
        LeadRoom room;
        Asked asked(room);
        show(room, inClass());
        press(room, Qt::Key_1);
        press(room, Qt::Key_3);
        press(room, Qt::Key_7); // no such line
        QCOMPARE(asked.take(), QString("worth 0 worth 2"));
    }

    void whatCameOfAWordIsSpoken()
    {
        LeadRoom room;
        LeadView view = inClass();
        view.hall.sent.clear();
        show(room, view);
        view.hall.sent = "Sent to Tomas.";
        room.setState(view);
        auto* box = room.findChild<WorthBox*>();
        bool spoken = false;
        for (auto* each : box->findChildren<SpokenWidget*>())
            spoken =
                spoken || (each->role() == QAccessible::AlertMessage && each->accessibleName() == "Sent to Tomas.");
        QVERIFY(spoken);
        int buttons = 0;
        for (auto* each : box->findChildren<QAbstractButton*>()) {
            QVERIFY(!each->accessibleName().isEmpty() && each->accessibleDescription().contains("Key"));
            ++buttons;
        }
        QCOMPARE(buttons, 3);
    }

    void anOpenSeatIsDrivenByKeys()
    {
        LeadRoom room;
        Asked asked(room);
        show(room, inClass());
        room.setState(seatOpen());
        QVERIFY(room.findChild<SeatPanel*>()->hasFocus());
        for (const Qt::Key key : {Qt::Key_Plus, Qt::Key_Minus, Qt::Key_0, Qt::Key_Z, Qt::Key_4})
            press(room, key);
        QCOMPARE(asked.take(), QString("band 1 band 0 band 2 band 3 word 3"));
        press(room, Qt::Key_Return); // the press that opened it, once more
        QCOMPARE(asked.take(), QString());
        press(room, Qt::Key_Space);
        press(room, Qt::Key_Escape);
        QCOMPARE(asked.take(), QString("goOn close"));
        room.setState(inClass());
        QVERIFY(room.findChild<HallView*>()->hasFocus());
    }

    void whoAgreedToNoneIsOfferedNone()
    {
        LeadRoom room;
        Asked asked(room);
        show(room, inClass());
        room.setState(seatOpen(Addressed::notAtAll));
        for (int key = Qt::Key_1; key <= Qt::Key_6; ++key)
            press(room, static_cast<Qt::Key>(key));
        QCOMPARE(asked.take(), QString());
        for (auto* each : room.findChild<SeatPanel*>()->findChildren<BigButton*>())
            QVERIFY(!each->isVisible() || !each->accessibleName().startsWith("Send"));
        QVERIFY(room.findChild<SeatPanel*>()->accessibleName().contains("Wishes not to be addressed"));
    }

    void whatMayNotBeDoneToTheBandIsNotAskedFor()
    {
        LeadRoom room;
        Asked asked(room);
        show(room, inClass());
        LeadView view = seatOpen();
        view.hall.panel->mayAskMore = view.hall.panel->mayReset = view.hall.panel->mayUndo = false;
        room.setState(view);
        for (const Qt::Key key : {Qt::Key_Plus, Qt::Key_0, Qt::Key_Z})
            press(room, key);
        QCOMPARE(asked.take(), QString());
    }

    void coveredNoNameIsLeftAnywhereAndTheScriptStays()
    {
        LeadRoom room;
        Asked asked(room);
        show(room, inClass());
        room.findChild<HallView*>()->setFocus();
        press(room, Qt::Key_C);
        QCOMPARE(asked.take(), QString("cover"));
        room.setState(covered());
        QVERIFY(room.findChild<CoverSheet*>()->isVisible());
        QVERIFY(!room.findChild<HallView*>()->isVisible() && !room.findChild<WorthBox*>()->isVisible());
        QVERIFY(room.findChild<FittedText*>()->isVisible());
        QCOMPARE(QAccessible::queryAccessibleInterface(room.findChild<HallView*>())->childCount(), 0);
        for (const auto* label : room.findChildren<QLabel*>())
            QVERIFY(!label->isVisible() || !label->text().contains("K7M"));
        QVERIFY(room.findChild<CoverSheet*>()->accessibleName().contains("Press C"));
        press(room, Qt::Key_Space); // the class goes on from where the focus went
        press(room, Qt::Key_1);     // a key pressed blindly
        press(room, Qt::Key_C);
        QCOMPARE(asked.take(), QString("goOn cover"));
    }

    void callsAndTheDoorDoNotMoveTheHall()
    {
        LeadRoom room;
        LeadView view = inClass();
        show(room, view);
        auto* hall = room.findChild<HallView*>();
        const QRect before(hall->mapTo(&room, QPoint()), hall->size());
        view.calls.rows = {{1, "Greta needs help, 18 s ago", "at the kitchen table", CallList::Hand::nobody},
                           {2, "Wim needs help, 2 s ago", "", CallList::Hand::nobody},
                           {3, "Ivo needs help, 1 s ago", "", CallList::Hand::nobody}};
        view.door.rows = {{1, "Marta", "tablet"}};
        view.notice = {"Your line is lost; it is being tried again.", NoticeLine::Tone::heed};
        room.setState(view);
        QApplication::processEvents();
        QCOMPARE(QRect(hall->mapTo(&room, QPoint()), hall->size()), before);
        int calls = 0;
        for (const auto* list : room.findChildren<CallList*>())
            calls += list->isVisible();
        QCOMPARE(calls, 1);
    }

    void escapeEndsNothing()
    {
        LeadRoom room;
        Asked asked(room);
        show(room, inClass());
        for (const Qt::Key key : {Qt::Key_Escape, Qt::Key_Escape, Qt::Key_Q, Qt::Key_Delete, Qt::Key_Backspace})
            press(room, key);
        QCOMPARE(asked.take(), QString());
    }

    void theGroupsWindowAndOwnDialogsAreNoOtherWindow()
    {
        LeadRoom room;
        show(room, inClass());
        auto* sign = room.findChild<DeepSign*>();
        QDialog own(&room);
        own.show();
        own.activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(&own));
        QVERIFY(!sign->isVisible());
        own.close();
        room.activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(&room));
        GroupWindow group;
        connect(&group, &GroupWindow::keyboardUnwanted, &room, [&room] { room.activateWindow(); });
        group.appear(room); // this platform gives every new window the keyboard
        QTRY_VERIFY(room.isActiveWindow());
        QVERIFY(group.isVisible() && !sign->isVisible());
    }

    void theSignOnlyGivesTheKeyboardBack()
    {
        LeadRoom room;
        Asked asked(room);
        show(room, inClass());
        QWidget other;
        other.show();
        other.activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(&other));
        auto* sign = room.findChild<DeepSign*>();
        QVERIFY(sign->isVisible());
        QVERIFY(sign->accessibleName().contains("keyboard is elsewhere"));
        QTest::mouseClick(sign, Qt::LeftButton, {}, {700, 590}); // over "Go on"
        QVERIFY(QTest::qWaitForWindowActive(&room));
        QVERIFY(!sign->isVisible());
        QCOMPARE(asked.take(), QString());
    }

    void theGroupsWindowIsMovedAndFilledByKeys()
    {
        LeadRoom room;
        Asked asked(room);
        show(room, inClass());
        press(room, Qt::Key_F, Qt::ShiftModifier);
        press(room, Qt::Key_D, Qt::ShiftModifier);
        QCOMPARE(asked.take(), QString("fill move"));
        QCOMPARE(displayAfter(0, 1), 0);
        QCOMPARE(displayAfter(0, 2), 1);
        QCOMPARE(displayAfter(2, 3), 0);
    }

    void theSoundCheckIsReachedAndLeftByKeys()
    {
        LeadRoom room;
        Asked asked(room);
        LeadView view = beforeClass();
        show(room, view);
        const auto focused = [&] { return qobject_cast<QAbstractButton*>(room.window()->focusWidget()); };
        for (int tabs = 0; tabs < 30 && !(focused() && focused()->text() == "Your sound"); ++tabs)
            press(room, Qt::Key_Tab);
        press(room, Qt::Key_Return);
        QCOMPARE(asked.take(), QString("check"));
        view.soundCheck = checkUnderWay();
        room.setState(view);
        press(room, Qt::Key_Space);
        press(room, Qt::Key_PageDown); // the clicker starts nothing here
        press(room, Qt::Key_Escape);
        QCOMPARE(asked.take(), QString("checked"));
    }
};

QTEST_MAIN(TestHallSide)
#include "test_hall_side.moc"
