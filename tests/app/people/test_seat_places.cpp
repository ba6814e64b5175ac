// Places in the hall: by seat until the class starts, then kept whatever happens.
#include "app/people/seat_book.h"

#include <QtTest>

using namespace vh;

namespace
{

PersonId personOf(std::uint32_t seat)
{
    PersonId person;
    person.bits.bytes[0] = static_cast<std::uint8_t>(seat + 1);
    return person;
}

wire::SeatName nameAt(std::uint32_t seat, bool here)
{
    return {seat, personOf(seat), "P" + std::to_string(seat), here, 0, Addressed::kind};
}

std::map<int, int> placesOf(const SeatBook& book)
{
    std::map<int, int> places;
    for (const SeatRow& row : book.rows())
        places[row.seat] = row.place;
    return places;
}

} // namespace

class TestSeatPlaces : public QObject
{
    Q_OBJECT
private slots:
    void regularsWhoAreMissingKeepAnEmptySeat()
    {
        SeatBook book;
        book.take({true, {nameAt(0, true), nameAt(1, false), nameAt(2, true)}}, {});
        book.beginClass();
        QCOMPARE(book.places(), 3);
        QCOMPARE(placesOf(book), (std::map<int, int>{{0, 0}, {2, 2}}));
        book.startClass();
        book.take({false, {nameAt(1, true)}}, {});
        QCOMPARE(placesOf(book), (std::map<int, int>{{0, 0}, {1, 1}, {2, 2}}));
    }

    void nobodyMovesOnceTheClassHasStarted()
    {
        SeatBook book;
        book.take({true, {nameAt(3, true), nameAt(5, true)}}, {});
        book.beginClass();
        book.startClass();
        const auto before = placesOf(book);
        book.take({false, {nameAt(1, true), nameAt(9, true)}}, {}); // a newcomer with a lower number, and one more
        book.take({false, {nameAt(3, false)}}, {});                 // a lost line
        const auto after = placesOf(book);
        QCOMPARE(after.at(3), before.at(3));
        QCOMPARE(after.at(5), before.at(5));
        QCOMPARE(after.at(1), 2);
        QCOMPARE(after.at(9), 3);
        QCOMPARE(book.places(), 4);
    }

    void whoLeadsHasNoSeatInHerOwnHall()
    {
        SeatBook book;
        book.setOwn(personOf(0));
        book.take({true, {nameAt(0, true), nameAt(1, true)}}, {});
        QCOMPARE(placesOf(book), (std::map<int, int>{{1, 0}}));
        QCOMPARE(book.places(), 1);
    }

    void aLargeGroupSeatsOnlyThoseWhoCome()
    {
        SeatBook book;
        wire::Seats all{true, {}};
        for (std::uint32_t seat = 0; seat < 100; ++seat)
            all.seats.push_back(nameAt(seat, seat % 4 == 0));
        book.take(all, {});
        QCOMPARE(book.places(), 25);
        QCOMPARE(placesOf(book).at(96), 24);
    }

    void aNewClassSeatsAnew()
    {
        SeatBook book;
        book.take({true, {nameAt(4, true)}}, {});
        book.beginClass();
        book.startClass();
        book.take({false, {nameAt(1, true)}}, {});
        QCOMPARE(placesOf(book), (std::map<int, int>{{1, 1}, {4, 0}}));
        book.beginClass();
        QCOMPARE(placesOf(book), (std::map<int, int>{{1, 0}, {4, 1}}));
    }
};

QTEST_APPLESS_MAIN(TestSeatPlaces)
#include "test_seat_places.moc"
