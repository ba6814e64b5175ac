// The hall: driven by keys alone, spoken seat by seat, the same picture for the same facts, and nobody moves.
#include "app/look/look.h"
#include "app/widgets/hall_view.h"

#include <QAccessible>
#include <QApplication>
#include <QSignalSpy>
#include <QtTest>

using namespace vh;

namespace
{

SeatRow rowOf(int place, const QString& name, Standing standing = Standing::inBand, std::optional<float> over = 6.0F)
{
    SeatRow row;
    row.seat = 100 + place;
    row.place = place;
    row.name = name;
    row.standing = standing;
    row.overUsualDb = over;
    return row;
}

HallView::State hallOf(int people)
{
    HallView::State hall;
    hall.places = people;
    for (int i = 0; i < people; ++i)
        hall.seats.push_back(rowOf(i, QStringLiteral("P%1").arg(i)));
    return hall;
}

} // namespace

class TestHallView : public QObject
{
    Q_OBJECT

    static void show(HallView& view, const HallView::State& state)
    {
        view.resize(597, 350);
        view.setState(state);
        view.show();
        view.activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(&view));
        view.setFocus(Qt::TabFocusReason);
        QVERIFY(view.hasFocus());
    }

private slots:
    void initTestCase()
    {
        QVERIFY(look::Look{}.applyTo(*qApp));
        QAccessible::setActive(true);
    }

    void whoIsHeardByAllIsMarkedAndSaidSo_data()
    {
        QTest::addColumn<int>("people");
        QTest::newRow("with names") << 28;
        QTest::newRow("in blocks") << 200;
    }
    void whoIsHeardByAllIsMarkedAndSaidSo()
    {
        QFETCH(int, people);
        HallView view;
        HallView::State hall = hallOf(people);
        show(view, hall);
        view.setFocusPlace(5);
        const QImage before = view.grab().toImage();
        const auto differsOnlyAt = [&](int place) {
            const QImage after = view.grab().toImage();
            const QRect seat = view.rectOf(place).adjusted(-4, -4, 4, 4);
            bool there = false;
            bool elsewhere = false;
            for (int y = 0; y < after.height(); ++y)
                for (int x = 0; x < after.width(); ++x)
                    if (after.pixel(x, y) != before.pixel(x, y))
                        (seat.contains(x, y) ? there : elsewhere) = true;
            return there && !elsewhere;
        };
        hall.seats[2].heard = HeardByAll::asked;
        view.setState(hall);
        QVERIFY(differsOnlyAt(2));
        const QImage asked = view.grab().toImage();
        hall.seats[2].heard = HeardByAll::yes;
        view.setState(hall);
        QVERIFY(differsOnlyAt(2));
        QVERIFY(view.grab().toImage() != asked);
        QCOMPARE(HallView::wordsOf(hall.seats[2]), "P2: easy to hear, heard by all");
        hall.seats[2].heard = HeardByAll::no;
        view.setState(hall);
        QCOMPARE(view.grab().toImage(), before);
    }

    void arrowsMoveAndEnterAsksForTheSeat()
    {
        HallView view;
        QSignalSpy asked(&view, &HallView::seatRequested);
        show(view, hallOf(28)); // eight in a row
        QCOMPARE(view.focusPlace(), 0);
        for (const Qt::Key key : {Qt::Key_Right, Qt::Key_Right, Qt::Key_Down, Qt::Key_Left, Qt::Key_Up, Qt::Key_Up})
            QTest::keyClick(&view, key);
        QCOMPARE(view.focusPlace(), 1);
        QTest::keyClick(&view, Qt::Key_Q); // a wrong key does nothing
        QCOMPARE(asked.count(), 0);
        QTest::keyClick(&view, Qt::Key_Return);
        QCOMPARE(asked.count(), 1);
        QCOMPARE(asked.first().first().toInt(), 101);
    }

    void emptySeatsStayAndAreSteppedOver()
    {
        HallView view;
        HallView::State hall;
        hall.places = 10;
        hall.seats = {rowOf(0, "Ruth"), rowOf(3, "Ivo"), rowOf(9, "Wim")};
        show(view, hall);
        QTest::keyClick(&view, Qt::Key_Right);
        QCOMPARE(view.focusPlace(), 3);
        const QRect before = view.rectOf(3);
        hall.seats.insert(hall.seats.begin() + 1, rowOf(1, "Greta"));
        view.setState(hall);
        QCOMPARE(view.rectOf(3), before);
        QCOMPARE(view.focusPlace(), 3);
    }

    void whatIsOnlyShownAsksForNothing()
    {
        HallView view;
        QSignalSpy asked(&view, &HallView::seatRequested);
        show(view, hallOf(5));
        view.setState(hallOf(70));
        view.setState({});
        view.grab();
        QTest::keyClick(&view, Qt::Key_Return); // nobody is there
        QCOMPARE(asked.count(), 0);
    }

    void keysOfTheClassAreLeftToTheClass()
    {
        class Page : public QWidget
        {
        public:
            int heard = 0;

        protected:
            void keyPressEvent(QKeyEvent*) override { ++heard; }
        } page;
        page.resize(597, 350);
        auto* view = new HallView(&page);
        view->resize(page.size());
        view->setState(hallOf(5));
        page.show();
        page.activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(&page));
        view->setFocus();
        QTest::keyClick(view, Qt::Key_Space);
        QTest::keyClick(view, Qt::Key_Escape);
        QCOMPARE(page.heard, 2);
        QTest::keyClick(view, Qt::Key_Left); // the hall's own, even at its edge
        QCOMPARE(page.heard, 2);
    }

    void everySeatIsSpokenByNameAndStanding()
    {
        HallView view;
        HallView::State hall;
        hall.places = 8;
        hall.seats = {rowOf(0, "Odile"), rowOf(2, "Maren", Standing::cantTell, {})};
        hall.seats[1].reason = Blank::roomTooNoisy;
        show(view, hall);
        QAccessibleInterface* list = QAccessible::queryAccessibleInterface(&view);
        QVERIFY(list);
        QCOMPARE(list->role(), QAccessible::List);
        QCOMPARE(list->text(QAccessible::Name), QString("The hall"));
        QCOMPARE(list->childCount(), 2);
        QCOMPARE(list->child(0)->text(QAccessible::Name), QString("Odile: easy to hear"));
        QCOMPARE(list->child(1)->text(QAccessible::Name), QString("Maren: can't tell: the room is loud"));
        QCOMPARE(list->child(1)->role(), QAccessible::ListItem);
        QCOMPARE(list->indexOfChild(list->child(1)), 1);
        QCOMPARE(list->child(1)->parent(), list);
        QVERIFY(list->child(0)->state().focused);
        QCOMPARE(list->focusChild(), list->child(0));
        const QPoint middle = list->child(1)->rect().center();
        QCOMPARE(list->childAt(middle.x(), middle.y()), list->child(1));

        QSignalSpy asked(&view, &HallView::seatRequested);
        list->child(1)->actionInterface()->doAction(QAccessibleActionInterface::pressAction());
        QCOMPARE(asked.count(), 1);
        list->child(1)->actionInterface()->doAction(QAccessibleActionInterface::setFocusAction());
        QCOMPARE(view.focusPlace(), 2);

        QAccessibleInterface* gone = list->child(1);
        hall.seats.pop_back();
        view.setState(hall);
        QVERIFY(!gone->isValid());
        QCOMPARE(list->childCount(), 1);
    }

    void aLargeHallZoomsRoundTheFocus()
    {
        HallView view;
        show(view, hallOf(1000));
        QVERIFY(!view.layoutNow().named());
        QTest::keyClick(&view, Qt::Key_Minus); // as far out as it goes
        QCOMPARE(view.zoom(), 0);
        view.setFocusPlace(777);
        QTest::keyClick(&view, Qt::Key_Plus);
        QTest::keyClick(&view, Qt::Key_Plus);
        QTest::keyClick(&view, Qt::Key_Plus);
        QCOMPARE(view.zoom(), 2);
        QVERIFY(view.layoutNow().named());
        QVERIFY(view.rect().contains(view.rectOf(777)));
        QTest::keyClick(&view, Qt::Key_Right);
        QVERIFY(view.rect().contains(view.rectOf(view.focusPlace())));
        QTest::keyClick(&view, Qt::Key_Minus);
        QTest::keyClick(&view, Qt::Key_Minus);
        QVERIFY(view.rect().contains(view.rectOf(0)) && view.rect().contains(view.rectOf(999)));
    }

    void smallHallsDoNotZoom()
    {
        HallView view;
        show(view, hallOf(60));
        QTest::keyClick(&view, Qt::Key_Plus);
        QCOMPARE(view.zoom(), 0);
    }

    void aSeatLooksTheSameHoweverItGotThere()
    {
        HallView changed;
        changed.resize(597, 350);
        HallView::State hall = hallOf(30);
        changed.setState(hall);
        changed.grab();
        for (auto& row : hall.seats) {
            row.standing = row.place % 2 == 0 ? Standing::below : Standing::away;
            row.overUsualDb = row.place % 2 == 0 ? std::optional(1.0F) : std::nullopt;
        }
        changed.setState(hall);
        HallView fresh;
        fresh.resize(597, 350);
        fresh.setState(hall);
        QCOMPARE(changed.grab().toImage(), fresh.grab().toImage());
        fresh.setState(hallOf(30));
        QVERIFY(changed.grab().toImage() != fresh.grab().toImage());
    }

    void everyStandingHasAShapeOfItsOwnEvenSmall_data()
    {
        QTest::addColumn<QSize>("size");
        QTest::newRow("named") << QSize(34, 58);
        QTest::newRow("in blocks") << QSize(9, 13);
        QTest::newRow("three thousand") << QSize(5, 7);
    }
    void everyStandingHasAShapeOfItsOwnEvenSmall()
    {
        QFETCH(QSize, size);
        SeatPictures pictures;
        pictures.become(size, 1);
        std::vector<QImage> seen;
        for (const Standing standing :
             {Standing::notYet, Standing::inBand, Standing::below, Standing::above, Standing::noVoice,
              Standing::cantTell, Standing::resting, Standing::private_, Standing::away}) {
            // Without colour: the shape alone must tell.
            const QImage grey =
                pictures.of(SeatPictures::keyOf(standing, {}, {})).convertToFormat(QImage::Format_Grayscale8);
            QImage shape(grey.size(), QImage::Format_Mono);
            for (int y = 0; y < grey.height(); ++y)
                for (int x = 0; x < grey.width(); ++x)
                    shape.setPixel(x, y, qGray(grey.pixel(x, y)) < 170 ? 1U : 0U);
            for (const QImage& other : seen)
                QVERIFY2(shape != other, qPrintable(vh::wordsOf(standing)));
            seen.push_back(shape);
        }
    }
};

QTEST_MAIN(TestHallView)
#include "test_hall_view.moc"
