// The leader's room: pushing state emits nothing, a press exactly one request; keys and clicker.
#include "app/lead/class_page.h"
#include "app/lead/group_window.h"
#include "app/lead/lead_room.h"
#include "app/lead/page_parts.h"
#include "app/look/look.h"
#include "app/widgets/big_button.h"
#include "app/widgets/hall_view.h"
#include "tests/app/lead/lead_states.h"

#include <QAbstractButton>
#include <QLabel>
#include <QLineEdit>
#include <QSignalSpy>
#include <QTest>

using namespace vh;
using namespace vh::lead;

namespace
{

LeadView inClass()
{
    LeadView view;
    view.stage = Stage::inClass;
    view.title = "Bread";
    view.hold = Hold::mine;
    view.column.now.text = "The loaf is warm.";
    view.column.turns = {{TurnKind::listen, TurnKind::yours}, 1, {"0:04"}};
    SeatRow row;
    row.seat = 0;
    row.name = "Ruth";
    view.hall.seats.push_back(row);
    view.hall.places = 1;
    return view;
}

/// Everything that the room asked for, in words.
class Asked : public QStringList
{
public:
    explicit Asked(LeadRoom& room)
    {
        QObject::connect(&room, &LeadRoom::commandRequested, &room, [this](CommandKind kind) {
            const auto name = nameOf(kind);
            append(QString::fromUtf8(name.data(), static_cast<qsizetype>(name.size())));
        });
        QObject::connect(&room, &LeadRoom::endRequested, &room, [this] { append("endPressed"); });
        QObject::connect(&room, &LeadRoom::takePlaceRequested, &room, [this] { append("takePlace"); });
        QObject::connect(&room, &LeadRoom::groupWindowRequested, &room, [this] { append("window"); });
        QObject::connect(&room, &LeadRoom::openClassRequested, &room, [this] { append("open"); });
        QObject::connect(&room, &LeadRoom::fileRequested, &room, [this](const QString& path) { append(path); });
        QObject::connect(&room, &LeadRoom::callTakeRequested, &room,
                         [this](quint64 call) { append(QString("take %1").arg(call)); });
        QObject::connect(&room, &LeadRoom::callAsideRequested, &room,
                         [this](quint64 call) { append(QString("aside %1").arg(call)); });
        QObject::connect(&room, &LeadRoom::whomToRingRequested, &room,
                         [this](const QString& text) { append("ring " + text); });
        QObject::connect(&room, &LeadRoom::callDoneRequested, &room, [this](quint64 call, const QString& outcome) {
            append(QString("done %1 %2").arg(call).arg(outcome));
        });
        QObject::connect(&room, &LeadRoom::letInRequested, &room,
                         [this](quint64 door) { append(QString("letIn %1").arg(door)); });
        QObject::connect(&room, &LeadRoom::inviteRequested, &room,
                         [this](Role role) { append(QString("invite %1").arg(static_cast<int>(role))); });
        QObject::connect(&room, &LeadRoom::leaveRequested, &room, [this] { append("leave"); });
    }
};

QAbstractButton* button(QWidget& room, const QString& words)
{
    for (auto* each : room.findChildren<QAbstractButton*>())
        if (each->text() == words && each->isVisible())
            return each;
    return nullptr;
}

} // namespace

class TestLeadRoom : public QObject
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
    void initTestCase() { QVERIFY(look::Look().applyTo(*qApp)); }

    void itFitsASmallScreen()
    {
        LeadRoom room;
        LeadView view = inClass();
        view.title = "A morning at the lakeside plots, with rather a long name";
        view.way.code = "K7M 42P";
        view.level = {"No sound from you", std::nullopt};
        view.clock = {"ends 10:01, three minutes early", "ends 10:01"};
        view.door.rows = {{1, "Marta", "tablet"}};
        show(room, view);
        QCOMPARE(room.size(), QSize(1366, 700));
        QVERIFY2(room.minimumSizeHint().width() <= 1366, qPrintable(QString::number(room.minimumSizeHint().width())));
        QVERIFY2(room.minimumSizeHint().height() <= 700, qPrintable(QString::number(room.minimumSizeHint().height())));
    }

    void pushingStateAsksForNothing()
    {
        LeadRoom room;
        const Asked asked(room);
        LeadView view = inClass();
        view.choice.files = {{"/a.yaml", "A"}, {"/b.yaml", "B"}};
        for (const Stage stage : {Stage::waiting, Stage::choosing, Stage::ready, Stage::inClass, Stage::over}) {
            view.stage = stage;
            view.choice.chosen = (view.choice.chosen + 1) % 2;
            show(room, view);
        }
        QVERIFY2(asked.isEmpty(), qPrintable(asked.join(' ')));
    }

    void keysAndClickerLead_data()
    {
        QTest::addColumn<int>("key");
        QTest::addColumn<QString>("asked");
        QTest::newRow("space") << int(Qt::Key_Space) << "goOn";
        QTest::newRow("enter") << int(Qt::Key_Return) << "goOn";
        QTest::newRow("right") << int(Qt::Key_Right) << "goOn";
        QTest::newRow("clicker, forwards") << int(Qt::Key_PageDown) << "goOn";
        QTest::newRow("left") << int(Qt::Key_Left) << "back";
        QTest::newRow("clicker, backwards") << int(Qt::Key_PageUp) << "back";
        QTest::newRow("once more") << int(Qt::Key_O) << "onceMore";
        QTest::newRow("wait") << int(Qt::Key_W) << "wait";
        QTest::newRow("skip") << int(Qt::Key_S) << "skip";
        QTest::newRow("the group's window") << int(Qt::Key_F) << "window";
        QTest::newRow("escape ends nothing") << int(Qt::Key_Escape) << "";
        QTest::newRow("who has the place takes none") << int(Qt::Key_T) << "";
    }
    void keysAndClickerLead()
    {
        QFETCH(int, key);
        QFETCH(QString, asked);
        LeadRoom room;
        const Asked heard(room);
        show(room, inClass());
        QTest::keyClick(room.window()->focusWidget(), static_cast<Qt::Key>(key));
        QCOMPARE(heard.join(' '), asked);
    }

    void theClickerLeadsFromTheTableToo()
    {
        LeadRoom room;
        const Asked asked(room);
        LeadView view = inClass();
        view.hall.asTable = true;
        show(room, view);
        auto* table = room.findChild<SeatTable*>();
        table->setFocus(Qt::TabFocusReason);
        QVERIFY(table->hasFocus());
        QTest::keyClick(table, Qt::Key_PageDown);
        QTest::keyClick(table, Qt::Key_O);
        QCOMPARE(asked.join(' '), QString("goOn onceMore"));
    }

    void aClickLeavesTheKeysWithTheClass()
    {
        LeadRoom room;
        const Asked asked(room);
        show(room, inClass());
        QTest::mouseClick(button(room, "Back"), Qt::LeftButton);
        QTest::mouseClick(room.findChild<HallView*>(), Qt::LeftButton, {}, {500, 250});
        QTest::keyClick(room.window()->focusWidget(), Qt::Key_Space);
        QCOMPARE(asked.join(' '), QString("back goOn"));
    }

    void aHeldKeyCountsOnce()
    {
        LeadRoom room;
        const Asked asked(room);
        show(room, inClass());
        QWidget* focus = room.window()->focusWidget();
        QTest::keyPress(focus, Qt::Key_Right);
        for (int i = 0; i < 5; ++i) {
            QKeyEvent repeat(QEvent::KeyPress, Qt::Key_Right, Qt::NoModifier, {}, true);
            QCoreApplication::sendEvent(focus, &repeat);
        }
        QCOMPARE(asked.join(' '), QString("goOn"));
    }

    void waitBecomesResume()
    {
        LeadRoom room;
        const Asked asked(room);
        LeadView view = inClass();
        view.waits = true;
        show(room, view);
        QTest::keyClick(&room, Qt::Key_W);
        QTest::mouseClick(button(room, "Resume"), Qt::LeftButton);
        QCOMPARE(asked.join(' '), QString("resume resume"));
    }

    void endIsPressedOnTheSameSpotTwice()
    {
        LeadRoom room;
        const Asked asked(room);
        show(room, inClass());
        QAbstractButton* end = button(room, "End the class");
        const QRect before = end->geometry();
        QTest::mouseClick(end, Qt::LeftButton);
        QCOMPARE(asked.join(' '), QString("endPressed"));
        LeadView view = inClass();
        view.endArmed = true;
        room.setState(view);
        QCoreApplication::processEvents();
        QCOMPARE(button(room, "End it for all?"), end);
        QCOMPARE(end->geometry(), before);
    }

    void coveringTheHallMovesNothingOfTheTopRow()
    {
        LeadRoom room;
        show(room, testing::inClass());
        const auto places = [&room] {
            QList<QRect> all;
            for (const char* words : {"Go silent", "Bell", "End the class"})
                all << button(room, words)->geometry();
            return all;
        };
        const QList<QRect> before = places();
        const QRect cover = button(room, "Cover the hall")->geometry();
        room.setState(testing::covered());
        QCoreApplication::processEvents();
        QCOMPARE(places(), before);
        QCOMPARE(button(room, "Uncover the hall")->geometry(), cover);
        QVERIFY(!button(room, "Group's window"));
    }

    void theGroupsWindowHasAButtonWhereItIsMostNeeded()
    {
        LeadRoom room;
        const Asked asked(room);
        show(room, testing::elsewhere()); // by the other call she shows it to them
        QTest::mouseClick(button(room, "Group's window"), Qt::LeftButton);
        room.setState(testing::inClass());
        QCoreApplication::processEvents();
        QVERIFY(!button(room, "Group's window")); // her voice's keys need the room
        QTest::keyClick(&room, Qt::Key_F);
        QCOMPARE(asked.join(' '), QString("window window"));
    }

    void oneKeyShowsAPictureToAllAndTakesItAway()
    {
        LeadRoom room;
        QSignalSpy shown(&room, &LeadRoom::pictureShowRequested);
        QSignalSpy putAway(&room, &LeadRoom::pictureDoneRequested);
        show(room, testing::inClass());
        QTest::keyClick(&room, Qt::Key_P); // none waits
        QVERIFY(shown.isEmpty());
        room.setState(testing::withPicture());
        QTest::keyClick(&room, Qt::Key_P);
        QTest::keyClick(&room, Qt::Key_P, Qt::ShiftModifier);
        QCOMPARE(shown.takeFirst(), QVariantList({quint64{31}, true}));
        QCOMPARE(putAway.takeFirst(), QVariantList({quint64{31}}));
        room.setState(testing::withPictureShown());
        QTest::keyClick(&room, Qt::Key_P);
        QTest::keyClick(&room, Qt::Key_P, Qt::ShiftModifier); // first it is taken away
        QCOMPARE(shown.takeFirst(), QVariantList({quint64{31}, false}));
        QVERIFY(putAway.isEmpty());
    }

    void theGroupsWindowShowsThePictureInsteadOfTheClassAndThenTheClassAgain()
    {
        GroupWindow window;
        ClassSheet::State state;
        state.text.text = "The boat comes home.";
        window.setState(state, "Lakeside plots", testing::withPictureShown().shown);
        window.show();
        const auto* picture = window.findChild<pictures::ShownView*>();
        QVERIFY(picture->isVisible() && !window.findChild<ClassSheet*>()->isVisible());
        QCOMPARE(picture->findChild<QLabel*>()->text(), QString("Ruth: My beans by the lake"));
        window.setState(state, "Lakeside plots");
        QVERIFY(!picture->isVisible() && window.findChild<ClassSheet*>()->isVisible());
    }

    void whoFollowsTakesThePlaceWithOneKey()
    {
        LeadRoom room;
        const Asked asked(room);
        LeadView view = inClass();
        view.role = Role::standIn;
        view.hold = Hold::anotherSilent;
        view.holder = "Anna";
        view.mayTake = true;
        view.hall = {};
        show(room, view);
        QVERIFY(!room.findChild<HallView*>()->isVisible());
        QVERIFY(!button(room, "Go on"));
        QTest::keyClick(&room, Qt::Key_T);
        QCOMPARE(asked.join(' '), QString("takePlace"));
    }

    void aCallForHelpIsTakenAndClosed()
    {
        LeadRoom room;
        const Asked asked(room);
        LeadView view = inClass();
        view.calls.rows = {{7, "Greta needs help, 18 s ago", "in the kitchen", CallList::Hand::nobody}};
        show(room, view);
        QTest::mouseClick(button(room, "I take it"), Qt::LeftButton);
        view.calls.rows = {{7, "You have Greta's call", "in the kitchen", CallList::Hand::mine}};
        room.setState(view);
        auto* outcome = [&] {
            for (auto* each : room.findChildren<QLineEdit*>())
                if (each->isVisible())
                    return each;
            return static_cast<QLineEdit*>(nullptr);
        }();
        outcome->setFocus();
        QTest::keyClicks(outcome, "so we rang"); // O, S and W are letters here
        view.calls.rows[0].words = "You have Greta's call ";
        room.setState(view);
        QCOMPARE(outcome->text(), QString("so we rang"));
        QTest::keyClick(outcome, Qt::Key_Return);
        QCOMPARE(asked.join('|'), QString("take 7|done 7 so we rang"));
    }

    void aCallThatFillsTheScreenHasItsKeysAndTheClassHasAllOthers()
    {
        LeadRoom room;
        LeadView view = inClass();
        view.filled = CallScreen::State{4, "Greta needs help", "Since 10:42, for 30 s.", {}, {}, {}, {}};
        show(room, view);
        auto* screen = room.findChild<CallScreen*>();
        QVERIFY(screen->isVisible());
        QCOMPARE(screen->geometry(), room.rect());
        Asked asked(room);
        for (const Qt::Key key : {Qt::Key_Space, Qt::Key_PageDown, Qt::Key_W, Qt::Key_Escape})
            QTest::keyClick(QApplication::focusWidget(), key);
        QCOMPARE(asked, (QStringList{"goOn", "goOn", "wait"}));
        QVERIFY(screen->isVisible()); // Esc is not a way to lose it
        asked.clear();
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_H);
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_A);
        QTest::mouseClick(button(room, "Set it aside"), Qt::LeftButton);
        QCOMPARE(asked, (QStringList{"take 4", "aside 4", "aside 4"}));
        view.filled.reset();
        room.setState(view);
        QVERIFY(!screen->isVisible());
        asked.clear();
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_H); // means nothing now
        QVERIFY(asked.isEmpty());
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_Space);
        QCOMPARE(asked, QStringList{"goOn"});
    }

    void whomToRingIsKeptOnceItIsNew()
    {
        LeadRoom room;
        LeadView view = inClass();
        view.stage = Stage::ready;
        view.whomToRing = "the clinic, 555 0142";
        show(room, view);
        auto* text = room.findChild<QLineEdit*>();
        for (auto* each : room.findChildren<QLineEdit*>())
            if (each->text() == view.whomToRing)
                text = each;
        QCOMPARE(text->text(), view.whomToRing);
        Asked asked(room);
        QTest::keyClick(text, Qt::Key_Return);
        QVERIFY(asked.isEmpty());
        text->setText("Sister Ada, 555 0100");
        view.whomToRing = "somebody else's words";
        room.setState(view); // what is being written stays
        QCOMPARE(text->text(), QString("Sister Ada, 555 0100"));
        QTest::keyClick(text, Qt::Key_Return);
        QCOMPARE(asked, QStringList{"ring Sister Ada, 555 0100"});
    }

    void aLostKeyboardIsSaidInLargeWords()
    {
        LeadRoom room;
        show(room, inClass());
        auto* sign = room.findChild<DeepSign*>();
        QVERIFY(!sign->isVisible());
        QWidget other;
        other.resize(200, 100);
        other.show();
        other.activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(&other));
        QVERIFY(sign->isVisible());
        room.activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(&room));
        QVERIFY(!sign->isVisible());
    }

    void nothingShownIsReadAsMarkup()
    {
        LeadRoom room;
        show(room, inClass());
        for (auto* label : room.findChildren<QLabel*>())
            QVERIFY2(label->textFormat() == Qt::PlainText || label->text().isEmpty(), qPrintable(label->text()));
    }

    void everyControlHasAName()
    {
        LeadRoom room;
        show(room, inClass());
        for (auto* each : room.findChildren<BigButton*>())
            QVERIFY(!each->isVisibleTo(&room) || !each->text().isEmpty() || !each->accessibleName().isEmpty());
        for (auto* each : room.findChildren<QLineEdit*>())
            QVERIFY(!each->accessibleName().isEmpty());
    }

    void whoKnocksDuringClassIsLetInWithoutAHelper()
    {
        LeadRoom room;
        const Asked asked(room);
        LeadView view = inClass();
        show(room, view);
        for (const DoorList* door : room.findChildren<DoorList*>())
            QVERIFY(!door->isVisible());
        view.door.rows = {{3, "Marta", "tablet"}};
        room.setState(view);
        QTest::mouseClick(button(room, "Let in"), Qt::LeftButton);
        QTest::keyClick(room.window()->focusWidget(), Qt::Key_Space); // the clicker still goes on
        QCOMPARE(asked.join('|'), QString("letIn 3|goOn"));
    }

    void beforeClassPressesAskOnce()
    {
        LeadRoom room;
        const Asked asked(room);
        LeadView view = inClass();
        view.stage = Stage::ready;
        view.door.rows = {{3, "Marta", "tablet"}};
        show(room, view);
        QTest::keyClick(room.window()->focusWidget(), Qt::Key_Space); // a stray press of the clicker
        QTest::keyClick(room.window()->focusWidget(), Qt::Key_PageDown);
        QTest::mouseClick(button(room, "Start the class"), Qt::LeftButton);
        QTest::mouseClick(button(room, "Let in"), Qt::LeftButton);
        QCOMPARE(asked.join('|'), QString("start|letIn 3"));
    }
};

QTEST_MAIN(TestLeadRoom)
#include "test_lead_room.moc"
