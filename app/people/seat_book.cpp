#include "app/people/seat_book.h"

namespace vh
{

namespace
{
constexpr std::size_t kMostNamedSeats = 60;
}

void SeatBook::take(const wire::Seats& message, Instant relayNow)
{
    for (const wire::SeatName& about : message.seats) {
        Seat& seat = m_seats[about.seat];
        if (seat.about.here && !about.here)
            seat.lostAt = relayNow;
        seat.about = about;
        seat.cameHere |= about.here;
    }
    givePlaces();
}

void SeatBook::givePlaces()
{
    std::size_t members = 0;
    std::size_t came = 0;
    for (const auto& [number, seat] : m_seats) {
        members += seat.about.person != m_own;
        came += isShown(seat);
    }
    const bool fresh = !m_placesFixed || m_places == 0;
    // Regulars who are not here keep an empty seat, where that leaves everybody's name readable.
    const bool absentToo = fresh && members <= kMostNamedSeats && came * 2 >= members;
    if (fresh) {
        m_places = 0;
        for (auto& [number, seat] : m_seats)
            seat.place = -1;
    }
    for (auto& [number, seat] : m_seats)
        if (seat.place < 0 && (isShown(seat) || (absentToo && seat.about.person != m_own)))
            seat.place = m_places++;
}

const wire::SeatName* SeatBook::seat(int number) const
{
    const auto found = m_seats.find(static_cast<std::uint32_t>(number));
    return number >= 0 && found != m_seats.end() ? &found->second.about : nullptr;
}

const wire::SeatName* SeatBook::seatOf(PersonId person) const
{
    for (const auto& [number, seat] : m_seats)
        if (seat.about.person == person)
            return &seat.about;
    return nullptr;
}

void SeatBook::beginClass()
{
    m_standings.clear();
    for (auto& [number, seat] : m_seats)
        seat.cameHere = seat.about.here;
    m_placesFixed = false;
    givePlaces();
}

void SeatBook::take(const wire::Roster& roster)
{
    if (roster.whole)
        m_standings.clear();
    for (const wire::RosterEntry& entry : roster.entries)
        m_standings[entry.seat] = entry;
}

void SeatBook::setBandOffset(PersonId person, float offsetDb)
{
    for (auto& [number, seat] : m_seats)
        if (seat.about.person == person)
            seat.about.bandOffsetDb = offsetDb;
}

std::vector<SeatRow> SeatBook::rows() const
{
    std::vector<SeatRow> rows;
    for (const auto& [number, seat] : m_seats) {
        if (!isShown(seat))
            continue;
        SeatRow row;
        row.seat = static_cast<int>(number);
        row.place = seat.place;
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
            people.push_back(
                {QString::fromStdString(seat.about.name), seat.about.here ? std::nullopt : std::optional(seat.lostAt)});
    return people;
}

} // namespace vh
