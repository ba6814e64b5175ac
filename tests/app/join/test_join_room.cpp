// The participant's room as a person meets it: pushing state emits nothing, each control emits exactly once, a
// trembling hand presses once, and all of it goes by keyboard.
#include "app/join/join_room.h"
#include "app/look/look.h"
#include "app/widgets/big_button.h"
#include "tests/app/join/class_here.h"

#include <QComboBox>
#include <QLineEdit>
#include <QSignalSpy>
#include <QtTest>

using namespace vh;
using namespace vh::join;
using namespace vh::testing;

namespace
{

AskView question(const QString& heading)
{
    AskView view;
    view.heading = heading;
    view.choices = {{"Yes", false}, {"No", false}};
    view.canGoBack = true;
    return view;
}

AskView form()
{
    AskView view;
    view.heading = "Join a class";
    view.fields = {{"Link", "hall.example.org", {}}, {"Your name", {}, {}, 40}};
    view.choices = {{"Come in", false}};
    view.canGoBack = true;
    return view;
}

CheckView check()
{
    CheckView view;
    view.heading = "Your microphone hears you well";
    view.words = "Please leave it where it is.";
    view.devices = {"Built-in", "Headset"};
    view.goOn = "Go on";
    view.skip = "Not now";
    view.back = "Back";
    view.more = "With a meter";
    return view;
}

ClassView inClass()
{
    ClassView view;
    view.title = "Bread and baking";
    view.sheet.cue.turn = TurnKind::yours;
    view.sheet.text.text = "Warm bread, please";
    return view;
}

ChoicesView choices()
{
    ChoicesView view;
    view.heading = "My choices";
    view.rows = {{"My voice today", {{"Fine", true}, {"Sore", false}, {"Listening", false}}},
                 {"My results are kept", {{"yes", true}, {"no", false}}}};
    view.more = "Where I am";
    view.undo = "back to: no";
    return view;
}

BoardView board()
{
    BoardView view;
    view.heading = "The board";
    view.draft = "Good morning";
    view.canSeePeople = true;
    view.back = "Back to the class";
    BoardRow row;
    row.key = 7;
    row.kind = BoardRow::Kind::mine;
    row.text = "Rain again";
    row.act = "Take it back";
    view.rows = {row};
    return view;
}

AnswerView answer()
{
    return {"Bram answers you", "You wrote: And tomorrow?", "Yes, at ten.", "Put it away", "Write something more"};
}

} // namespace

class TestJoinRoom : public QObject
{
    Q_OBJECT
private:
    HandClock m_clock{kNoon};
    std::unique_ptr<JoinRoom> m_room;
    QStringList m_emitted;

    /// A while after the screen has appeared.
    void show(const JoinView& view)
    {
        m_room->setState(view);
        m_clock.advance(PressFilter::kOnePress);
        m_emitted.clear();
    }
    BigButton* button(const QString& words)
    {
        for (BigButton* each : m_room->currentWidget()->findChildren<BigButton*>())
            if (each->text().startsWith(words) && each->isVisible())
                return each;
        return nullptr;
    }
    void click(const QString& words)
    {
        BigButton* found = button(words);
        QVERIFY2(found, qPrintable(words));
        QTest::mouseClick(found, Qt::LeftButton);
    }

private slots:
    void initTestCase() { QVERIFY(look::Look{}.applyTo(*qApp)); }
    void init()
    {
        m_room = std::make_unique<JoinRoom>();
        m_room->setClock(m_clock);
        m_room->resize(1366, 700);
        m_room->show();
        QVERIFY(QTest::qWaitForWindowExposed(m_room.get()));
        m_room->activateWindow();
        QTRY_VERIFY(m_room->isActiveWindow());
        const auto note = [this](const QString& name) { m_emitted.append(name); };
        JoinRoom* room = m_room.get();
        connect(room, &JoinRoom::submitRequested, this,
                [note](const QStringList& f) { note("submit " + f.join("|")); });
        connect(room, &JoinRoom::choiceRequested, this, [note](int i) { note("choice " + QString::number(i)); });
        connect(room, &JoinRoom::deviceRequested, this, [note](int i) { note("device " + QString::number(i)); });
        connect(room, &JoinRoom::backRequested, this, [note] { note("back"); });
        connect(room, &JoinRoom::waitButtonRequested, this, [note] { note("wait"); });
        connect(room, &JoinRoom::checkPressed, this, [note](CheckPress press) {
            const QStringList names{"go on", "skip", "check back", "other way"};
            note(names[static_cast<int>(press)]);
        });
        connect(room, &JoinRoom::helpRequested, this, [note] { note("help"); });
        connect(room, &JoinRoom::writeRequested, this, [note] { note("write"); });
        connect(room, &JoinRoom::helloRequested, this, [note] { note("hello"); });
        connect(room, &JoinRoom::choicesRequested, this, [note] { note("choices"); });
        connect(room, &JoinRoom::noticeRequested, this,
                [note](NoticeAction action) { note("notice " + QString::number(static_cast<int>(action))); });
        connect(room, &JoinRoom::pickRequested, this,
                [note](int row, int answer) { note(QStringLiteral("pick %1 %2").arg(row).arg(answer)); });
        connect(room, &JoinRoom::undoRequested, this, [note] { note("undo"); });
        connect(room, &JoinRoom::moreRequested, this, [note] { note("more"); });
        connect(room, &JoinRoom::privateRequested, this, [note] { note("private"); });
        connect(room, &JoinRoom::leaveRequested, this, [note] { note("leave"); });
        connect(room, &JoinRoom::draftChanged, this, [note](const QString& words) { note("draft " + words); });
        connect(room, &JoinRoom::sendRequested, this, [note] { note("send"); });
        connect(room, &JoinRoom::lineRequested, this, [note](quint64 line) { note("line " + QString::number(line)); });
        connect(room, &JoinRoom::peopleRequested, this, [note] { note("people"); });
        connect(room, &JoinRoom::putAwayRequested, this, [note](bool more) { note(more ? "write more" : "put away"); });
    }

    void pushingStateEmitsNothing()
    {
        CheckView other = check();
        other.devices = {"Headset", "Built-in", "Third"};
        other.device = 2;
        ClassView kept = inClass();
        kept.isPrivate = true;
        for (int i = 0; i < 2; ++i)
            for (const JoinView& view : std::initializer_list<JoinView>{
                     form(), question("One?"), question("Two?"), WaitView{"One moment", "Looking.", {"a", "b"}, "Stop"},
                     check(), other, choices(), inClass(), kept, WaitView{"Over", {}, {}, "Close"}, board(), answer()})
                m_room->setState(view);
        QCOMPARE(m_emitted, QStringList());
    }

    void eachControlEmitsExactlyOnce()
    {
        show(form());
        click("Come in");
        QCOMPARE(m_emitted, QStringList{"submit hall.example.org|"});
        show(question("One?"));
        click("No");
        QCOMPARE(m_emitted, QStringList{"choice 1"});
        show(question("Two?"));
        click("Back");
        QCOMPARE(m_emitted, QStringList{"back"});
        show(WaitView{"One moment", {}, {}, "Stop"});
        click("Stop");
        QCOMPARE(m_emitted, QStringList{"wait"});
        show(check());
        click("Go on");
        click("Not now");
        click("With a meter");
        click("Back");
        QCOMPARE(m_emitted, (QStringList{"go on", "skip", "other way", "check back"}));
        show(inClass());
        for (const char* words : {"I need help", "Say hello", "Board", "My choices", "Leave", "Keep it private"})
            click(words);
        QCOMPARE(m_emitted, (QStringList{"help", "hello", "write", "choices", "leave", "private"}));
        ClassView calling = inClass();
        calling.action = NoticeAction::takeBackCall;
        show(calling);
        click("Take it back");
        QCOMPARE(m_emitted, QStringList{"notice 1"});
        show(choices());
        for (const char* words : {"Sore", "no", "Where I am", "Take it back", "Back to the class"})
            click(words);
        QCOMPARE(m_emitted, (QStringList{"pick 0 1", "pick 1 1", "more", "undo", "back"}));
    }

    void atTheBoardEachControlEmitsExactlyOnceAndTypingGoesIntoTheField()
    {
        show(board());
        for (const char* words : {"Send", "Take it back", "Who is here", "Back to the class"})
            click(words);
        QCOMPARE(m_emitted, (QStringList{"send", "line 7", "people", "back"}));
        show(question("Another screen"));
        show(board());
        QWidget* field = QApplication::focusWidget();
        QVERIFY(field && field->accessibleName() == "Your words");
        QTest::keyClicks(field, "!");
        QTest::keyClick(field, Qt::Key_Return);
        QCOMPARE(m_emitted, (QStringList{"draft Good morning!", "send"}));
        BoardView paused = board();
        paused.writing = BoardView::Writing::paused;
        show(paused);
        QVERIFY(!button("Send"));
    }

    void anAnswerIsPutAwayByOnePressAndByNoneAtFirst()
    {
        show(answer());
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
        QCOMPARE(m_emitted, QStringList());
        click("Put it away");
        click("Write something more");
        QCOMPARE(m_emitted, (QStringList{"put away", "write more"}));
    }

    void anotherMicrophoneIsAskedForOnceByThePersonOnly()
    {
        show(check());
        auto* devices = m_room->findChild<QComboBox*>();
        QVERIFY(devices);
        devices->setFocus();
        QTest::keyClick(devices, Qt::Key_Down);
        QCOMPARE(m_emitted, QStringList{"device 1"});
    }

    void aTremblingHandPressesOnce()
    {
        show(inClass());
        BigButton* help = button("I need help");
        QVERIFY(help);
        help->setClock(m_clock);
        for (int i = 0; i < 5; ++i) {
            QTest::mouseClick(help, Qt::LeftButton);
            m_clock.advance(Millis{150});
        }
        QTest::mouseDClick(help, Qt::LeftButton);
        QCOMPARE(m_emitted, QStringList{"help"});
        m_clock.advance(PressFilter::kOnePress);
        QTest::mouseClick(help, Qt::LeftButton);
        QCOMPARE(m_emitted, (QStringList{"help", "help"}));
    }

    void aPressThatMeantTheScreenBeforeDoesNotAnswerTheNext()
    {
        show(question("One?"));
        click("Yes");
        m_room->setState(question("Two?")); // the second shake of the same hand, over the same spot
        for (int i = 0; i < 6; ++i) {
            m_clock.advance(Millis{120});
            click("Yes");
        }
        QTest::keyClick(button("Yes"), Qt::Key_Space);
        QTest::keyClick(button("Yes"), Qt::Key_Return);
        QCOMPARE(m_emitted, QStringList{"choice 0"});
        m_clock.advance(PressFilter::kOnePress);
        click("Yes");
        QCOMPARE(m_emitted, (QStringList{"choice 0", "choice 0"}));
    }

    void whatSomebodyIsTypingStaysWhileTheStateIsPushed()
    {
        show(form());
        auto* name = m_room->currentWidget()->findChildren<QLineEdit*>().at(1);
        QCOMPARE(QApplication::focusWidget(), name); // the first that is empty
        QTest::keyClicks(name, "Ruth of the lake");
        AskView wrong = form();
        wrong.notice = "The code has six signs.";
        m_room->setState(wrong);
        m_room->setState(wrong);
        QCOMPARE(name->text(), "Ruth of the lake");
        QTest::keyClick(name, Qt::Key_Return);
        QCOMPARE(m_emitted, QStringList{"submit hall.example.org|Ruth of the lake"});
    }

    void theKeyboardAloneReachesEveryControl_data()
    {
        QTest::addColumn<int>("screen");
        QTest::addColumn<QStringList>("emits");
        QTest::newRow("question") << 0 << QStringList{"choice 0", "choice 1", "back"};
        QTest::newRow("check") << 1 << QStringList{"go on", "skip", "other way", "check back"};
        QTest::newRow("class") << 2 << QStringList{"help", "hello", "write", "choices", "leave", "private"};
        QTest::newRow("wait") << 3 << QStringList{"wait"};
    }
    void theKeyboardAloneReachesEveryControl()
    {
        QFETCH(const int, screen);
        QFETCH(const QStringList, emits);
        const JoinView views[] = {question("One?"), check(), inClass(), WaitView{"One moment", {}, {}, "Stop"}};
        show(views[screen]);
        QSet<QString> seen;
        for (int i = 0; i < 12; ++i) {
            QWidget* focus = QApplication::focusWidget();
            QVERIFY(focus);
            if (qobject_cast<BigButton*>(focus) && !seen.contains(qobject_cast<BigButton*>(focus)->text())) {
                seen.insert(qobject_cast<BigButton*>(focus)->text());
                QTest::keyClick(focus, Qt::Key_Space);
            }
            QTest::keyClick(QApplication::focusWidget(), Qt::Key_Tab);
        }
        QStringList sorted = m_emitted;
        QStringList expected = emits;
        sorted.sort();
        expected.sort();
        QCOMPARE(sorted, expected);
    }

    void atFirstTheKeyboardStandsOnNothingThatActs()
    {
        for (const JoinView& view : std::initializer_list<JoinView>{question("One?"), inClass()}) {
            show(view);
            QVERIFY(!qobject_cast<BigButton*>(QApplication::focusWidget()));
            QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
            QTest::keyClick(QApplication::focusWidget(), Qt::Key_Space);
            QCOMPARE(m_emitted, QStringList());
        }
    }

    void aTremblingHandPicksOnceEvenIfTheAnswersChangeUnderIt()
    {
        show(choices());
        ChoicesView changed = choices();
        std::swap(changed.rows[1].answers[0].chosen, changed.rows[1].answers[1].chosen);
        BigButton* no = button("no");
        QVERIFY(no);
        no->setClock(m_clock);
        for (int i = 0; i < 4; ++i) {
            QTest::mouseClick(no, Qt::LeftButton);
            m_room->setState(i % 2 == 0 ? changed : choices());
            m_clock.advance(Millis{200});
        }
        QCOMPARE(m_emitted, QStringList{"pick 1 1"});
        QCOMPARE(button("no"), no);
    }
};

QTEST_MAIN(TestJoinRoom)
#include "test_join_room.moc"
