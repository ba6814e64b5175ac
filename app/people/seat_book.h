#pragma once
// Who sits where and how each voice stands, as seats and rosters bring it. Keeps everybody who has been here since the
// last welcome, so that a lost line shows as such and no seat moves. The person who looks is left out. Value without
// widgets; any one thread.
#include "app/widgets/seat_table.h"
#include "common/wire/binary.h"
#include "common/wire/to_client.h"

#include <map>

namespace vh
{

struct SeatCounts {
    int here = 0;
    int easy = 0;
    int littleMore = 0;
    int plenty = 0; ///< above the band, also far above
    /// Those whose voice can be read at all.
    [[nodiscard]] int readable() const { return easy + littleMore + plenty; }
    friend bool operator==(const SeatCounts&, const SeatCounts&) = default;
};

class SeatBook
{
public:
    void take(const wire::Seats& message, Instant relayNow);
    void take(const wire::Roster& roster);
    /// Whoever looks.
    void setOwn(PersonId person) { m_own = person; }
    void setSection(std::optional<SectionKind> kind) { m_section = kind; }
    void clear() { m_seats.clear(), m_standings.clear(); }

    [[nodiscard]] std::vector<SeatRow> rows() const;
    [[nodiscard]] SeatCounts counts() const;

    struct Somebody {
        QString name;
        std::optional<Instant> lostAt; ///< none: here
    };
    /// In the order of the seats; no standings: for helpers.
    [[nodiscard]] std::vector<Somebody> people() const;

private:
    struct Seat {
        wire::SeatName about;
        bool cameHere = false;
        Instant lostAt{};
    };
    [[nodiscard]] bool isShown(const Seat& seat) const { return seat.cameHere && seat.about.person != m_own; }

    std::map<std::uint32_t, Seat> m_seats;
    std::map<std::uint32_t, wire::RosterEntry> m_standings;
    PersonId m_own;
    std::optional<SectionKind> m_section;
};

} // namespace vh
