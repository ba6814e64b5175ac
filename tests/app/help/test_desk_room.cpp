// The helper's desk: pushing state emits nothing, a press exactly one request, keys only in the list they belong to.
#include "app/help/desk_room.h"
#include "app/look/look.h"
#include "app/widgets/big_button.h"

#include <QLabel>
#include <QLineEdit>
#include <QTest>

using namespace vh;
using namespace vh::help;

namespace
{

DeskView busy()
{
    DeskView view;
    view.toRead = {{1, "Rolf", "12 s", "Slugs.", false},
                   {2, "Edda", "9 s", "The same?", false},
                   {3, "Kofi", "5 s", "Yams.", false}};
    view.board = {{9, "Ruth", {}, "Rain.", false}};
    view.door.rows = {{4, "Marta", "tablet"}};
    view.hereWords = "Here: 3";
    view.names = "Rolf, Edda, Kofi";
    return view;
}

class Asked : public QStringList
{
public:
    explicit Asked(DeskRoom& room)
    {
        const auto note = [this](const char* what) {
            return [this, what](quint64 id) { append(QString("%1 %2").arg(what).arg(id)); };
        };
        QObject::connect(&room, &DeskRoom::showRequested, &room, note("show"));
        QObject::connect(&room, &DeskRoom::setAsideRequested, &room, note("aside"));
        QObject::connect(&room, &DeskRoom::letInRequested, &room, note("letIn"));
        QObject::connect(&room, &DeskRoom::turnAwayRequested, &room, note("turnAway"));
        QObject::connect(&room, &DeskRoom::callTakeRequested, &room, note("take"));
        QObject::connect(&room, &DeskRoom::noticeRequested, &room, [this](const QString& t) { append("say " + t); });
        QObject::connect(&room, &DeskRoom::attendRequested, &room, [this](const QString& t) { append("here " + t); });
    }
};

QLineEdit* field(DeskRoom& room, const QString& name)
{
    for (auto* each : room.findChildren<QLineEdit*>())
        if (each->accessibleName() == name)
            return each;
    return nullptr;
}

CardList* toRead(DeskRoom& room)
{
    for (auto* each : room.findChildren<CardList*>())
        if (each->accessibleName() == "To read")
            return each;
    return nullptr;
}

} // namespace

class TestDeskRoom : public QObject
{
    Q_OBJECT

    static void show(DeskRoom& room, const DeskView& view)
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
        DeskRoom room;
        show(room, busy());
        QVERIFY(room.minimumSizeHint().width() <= 1366);
        QVERIFY(room.minimumSizeHint().height() <= 700);
    }

    void pushingStateAsksForNothing()
    {
        DeskRoom room;
        const Asked asked(room);
        show(room, busy());
        room.setState({});
        room.setState(busy());
        QVERIFY2(asked.isEmpty(), qPrintable(asked.join(' ')));
    }

    void oneAndTwoDecideOnTheChosenLine()
    {
        DeskRoom room;
        const Asked asked(room);
        show(room, busy());
        QVERIFY(toRead(room)->hasFocus());
        QTest::keyClick(toRead(room), Qt::Key_1);
        QTest::keyClick(toRead(room), Qt::Key_Down);
        QTest::keyClick(toRead(room), Qt::Key_2);
        QTest::keyClick(toRead(room), Qt::Key_3);
        QCOMPARE(asked.join('|'), QString("show 1|aside 2"));
    }

    void onceDecidedHereTheNextIsChosen()
    {
        DeskRoom room;
        const Asked asked(room);
        show(room, busy());
        QTest::keyClick(toRead(room), Qt::Key_1);
        DeskView view = busy();
        view.toRead.erase(view.toRead.begin());
        room.setState(view);
        QTest::keyClick(toRead(room), Qt::Key_1);
        QCOMPARE(asked.join('|'), QString("show 1|show 2"));
    }

    void aKeyNeverFallsOnTheNextLineWhenSomebodyElseDecided()
    {
        DeskRoom room;
        const Asked asked(room);
        show(room, busy());
        DeskView view = busy();
        view.toRead.erase(view.toRead.begin());
        room.setState(view);
        QTest::keyClick(toRead(room), Qt::Key_1);
        QVERIFY(asked.isEmpty());
        QTest::keyClick(toRead(room), Qt::Key_Down);
        QTest::keyClick(toRead(room), Qt::Key_1);
        QCOMPARE(asked.size(), 1);
    }

    void digitsInATextAreText()
    {
        DeskRoom room;
        const Asked asked(room);
        show(room, busy());
        QLineEdit* say = field(room, "Say to everybody");
        say->setFocus();
        QTest::keyClicks(say, "12 loaves");
        QVERIFY(asked.isEmpty());
        QTest::keyClick(say, Qt::Key_Return);
        QTest::keyClick(say, Qt::Key_Return); // nothing is left to be said
        QCOMPARE(asked.join('|'), QString("say 12 loaves"));
        QLineEdit* who = field(room, "Name of somebody who only phoned in");
        who->setFocus();
        QTest::keyClicks(who, " Mr Lindqvist ");
        QTest::keyClick(who, Qt::Key_Return);
        QCOMPARE(asked.last(), QString("here Mr Lindqvist"));
    }

    void theDoorIsOnePressEach()
    {
        DeskRoom room;
        const Asked asked(room);
        show(room, busy());
        for (auto* each : room.findChildren<BigButton*>())
            if (each->accessibleName() == "Turn away Marta")
                QTest::mouseClick(each, Qt::LeftButton);
        QCOMPARE(asked.join('|'), QString("turnAway 4"));
    }

    void theListKeepsItsChoiceWhileLinesCome()
    {
        DeskRoom room;
        show(room, busy());
        QTest::keyClick(toRead(room), Qt::Key_Down);
        DeskView view = busy();
        view.toRead.push_back({8, "Lena", "now", "Beans.", false});
        view.toRead[0].aside = "13 s";
        room.setState(view);
        QCOMPARE(toRead(room)->chosen(), 2U);
        QCOMPARE(toRead(room)->item(3)->text(), QString("Lena: Beans."));
    }

    void nothingShownIsReadAsMarkup()
    {
        DeskRoom room;
        show(room, busy());
        for (auto* label : room.findChildren<QLabel*>())
            QVERIFY2(label->textFormat() == Qt::PlainText || label->text().isEmpty(), qPrintable(label->text()));
    }
};

QTEST_MAIN(TestDeskRoom)
#include "test_desk_room.moc"
