#pragma once
// Who sits where and how each voice stands, as seats and rosters bring it. Keeps everybody who has been here in this
// class, so that a lost line shows as such and no seat moves. The person who looks is left out. Value without
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
    /// A new class: whoever is not here now has not come yet, and nobody has been judged.
    void beginClass();
    /// It starts: from now on everybody keeps their place in the hall, and whoever comes takes the next one.
    void startClass() { m_placesFixed = true; }

    [[nodiscard]] std::vector<SeatRow> rows() const;
    [[nodiscard]] SeatCounts counts() const;
    /// Places in the hall, those of people who have not come included while there is room for their names.
    [[nodiscard]] int places() const { return m_places; }
    /// The relay has taken a band that a leader moved; its own message about the seat comes a moment later.
    void setBandOffset(PersonId person, float offsetDb);
    /// What the relay says of a seat, or of the person on it; null: nothing.
    [[nodiscard]] const wire::SeatName* seat(int number) const;
    [[nodiscard]] const wire::SeatName* seatOf(PersonId person) const;

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
        int place = -1; ///< none yet
    };
    void givePlaces();
    [[nodiscard]] bool isShown(const Seat& seat) const { return seat.cameHere && seat.about.person != m_own; }

    std::map<std::uint32_t, Seat> m_seats;
    std::map<std::uint32_t, wire::RosterEntry> m_standings;
    PersonId m_own;
    std::optional<SectionKind> m_section;
    int m_places = 0;
    bool m_placesFixed = false;
};

} // namespace vh
