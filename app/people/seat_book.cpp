#include "app/people/seat_book.h"

namespace vh
{

void SeatBook::take(const wire::Seats& message, Instant relayNow)
{
    // "whole" may come in several pieces, each marked so: what is not named again is simply what it was.
    for (const wire::SeatName& about : message.seats) {
        Seat& seat = m_seats[about.seat];
        if (seat.about.here && !about.here)
            seat.lostAt = relayNow;
        seat.about = about;
        seat.cameHere |= about.here;
    }
}

void SeatBook::take(const wire::Roster& roster)
{
    if (roster.whole)
        m_standings.clear();
    for (const wire::RosterEntry& entry : roster.entries)
        m_standings[entry.seat] = entry;
}

std::vector<SeatRow> SeatBook::rows() const
{
    std::vector<SeatRow> rows;
    for (const auto& [number, seat] : m_seats) {
        if (!isShown(seat))
            continue;
        SeatRow row;
        row.seat = static_cast<int>(number);
        row.name = QString::fromStdString(seat.about.name);
        if (const auto found = m_standings.find(number); found != m_standings.end()) {
            row.standing = found->second.standing;
            row.reason = found->second.blank;
            if (found->second.hasLevel)
                row.overUsualDb = found->second.overUsualDb;
        }
        if (!seat.about.here)
            row.standing = Standing::away;
        if (m_section)
            row.band = bandFor(*m_section, seat.about.bandOffsetDb).value_or(Band{});
        rows.push_back(row);
    }
    return rows;
}

SeatCounts SeatBook::counts() const
{
    SeatCounts counts;
    for (const SeatRow& row : rows()) {
        counts.here += row.standing != Standing::away;
        counts.easy += row.standing == Standing::inBand;
        counts.littleMore += row.standing == Standing::below;
        counts.plenty += row.standing == Standing::above || row.standing == Standing::straining;
    }
    return counts;
}

std::vector<SeatBook::Somebody> SeatBook::people() const
{
    std::vector<Somebody> people;
    for (const auto& [number, seat] : m_seats)
        if (isShown(seat))
            people.push_back({QString::fromStdString(seat.about.name),
                              seat.about.here ? std::nullopt : std::optional(seat.lostAt)});
    return people;
}

} // namespace vh
