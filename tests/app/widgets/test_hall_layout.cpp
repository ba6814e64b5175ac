// Where seats stand: in the room, none over another, and nobody moves when somebody comes.
#include "app/widgets/hall_layout.h"

#include <QtTest>

using namespace vh;

namespace
{
constexpr QSize kRoom(597, 350);
constexpr int kName = 24;
} // namespace

class TestHallLayout : public QObject
{
    Q_OBJECT
private slots:
    void everySeatStandsInTheRoomAndNoneOverAnother_data()
    {
        QTest::addColumn<int>("places");
        for (const int places : {1, 5, 12, 13, 28, 32, 33, 60, 61, 100, 101, 640, 1000, 3000})
            QTest::addRow("%d", places) << places;
    }
    void everySeatStandsInTheRoomAndNoneOverAnother()
    {
        QFETCH(int, places);
        const HallLayout hall(places, kRoom, kName);
        const QRect room(QPoint(), kRoom);
        QRegion taken;
        for (int place = 0; place < places; ++place) {
            const QRect seat = hall.rectOf(place);
            QVERIFY2(room.contains(seat), qPrintable(QString::number(place)));
            QVERIFY(QRect(QPoint(), seat.size()).contains(hall.column()));
            QCOMPARE(hall.placeAt(seat.center()), place);
            QCOMPARE(hall.placeAt(seat.topLeft()), place);
            QCOMPARE(hall.placeAt(seat.bottomRight()), place);
            QCOMPARE(hall.placeAtGrid(hall.gridOf(place)), place);
            if (places <= 100) {
                QVERIFY(!taken.intersects(seat));
                taken += seat;
            }
        }
    }

    void toSixtySeatsHaveNamesAboveThatOnlyTheClosestLook()
    {
        QVERIFY(HallLayout(60, kRoom, kName).named());
        QVERIFY(!HallLayout(61, kRoom, kName).named());
        QVERIFY(HallLayout(61, kRoom, kName, 2).named());
        QVERIFY(!HallLayout(61, kRoom, kName, 1).named());
        QVERIFY(HallLayout(3000, kRoom, kName, 1).place().width() >= 20);
    }

    void somebodyWhoComesMovesNobody_data()
    {
        QTest::addColumn<int>("before");
        QTest::addColumn<int>("after");
        QTest::newRow("a row is still open") << 27 << 28;
        QTest::newRow("a fuller hall") << 33 << 40;
        QTest::newRow("blocks") << 610 << 640;
        QTest::newRow("the largest") << 2100 << 3000;
    }
    void somebodyWhoComesMovesNobody()
    {
        QFETCH(int, before);
        QFETCH(int, after);
        const HallLayout few(before, kRoom, kName);
        const HallLayout more(after, kRoom, kName);
        for (int place = 0; place < before; ++place)
            QCOMPARE(more.gridOf(place), few.gridOf(place));
    }

    void aislesAndNothingAreNoSeats()
    {
        const HallLayout hall(100, kRoom, kName); // two blocks
        const QRect last = hall.rectOf(9);
        const QRect next = hall.rectOf(50);
        const bool besides = next.left() > last.right();
        const QPoint aisle = besides ? QPoint(last.right() + 1, last.center().y())
                                     : QPoint(last.center().x(), hall.rectOf(49).bottom() + 1);
        QCOMPARE(hall.placeAt(aisle), -1);
        QCOMPARE(hall.placeAt({-1, 5}), -1);
        QCOMPARE(hall.placeAtGrid({-1, 0}), -1);
        QCOMPARE(HallLayout(13, kRoom, kName).placeAtGrid({7, 1}), -1); // an empty end of a row
        QCOMPARE(HallLayout().placeAt({0, 0}), -1);
    }
};

QTEST_APPLESS_MAIN(TestHallLayout)
#include "test_hall_layout.moc"
