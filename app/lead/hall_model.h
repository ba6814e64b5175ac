#pragma once
// What a leader's app knows and does about the people: seats and standings, worth a word, the panel of one seat, her
// private words and the bands she moves, and whether the hall is covered. Part of LeadModel. Value without widgets; any
// one thread.
#include "app/lead/guest.h"
#include "app/lead/hall_view_state.h"
#include "app/people/seat_book.h"
#include "common/live/share.h"
#include "common/wire/to_client.h"
#include "common/wire/to_relay.h"

#include <map>
#include <optional>

namespace vh::lead
{

class HallModel
{
public:
    void take(const wire::Seats& seats, Instant now) { m_seats.take(seats, now); }
    void take(const wire::Roster& roster);
    void take(const wire::WorthNow& worth) { m_worth = worth.people; }
    void setOwn(PersonId person) { m_seats.setOwn(person); }
    void setHere(std::uint32_t here) { m_here = here; }
    /// Where the class is: kind for the bands, index for the group's line. None: nowhere.
    void setSection(std::optional<SectionKind> kind, int index);
    void beginClass();
    void startClass() { m_seats.startClass(); }

    void toggleCover();
    void toggleTable() { m_asTable = !m_asTable; }
    void openSeat(int seat);
    void closeSeat() { m_open.reset(); }
    [[nodiscard]] bool covered() const { return m_covered; }

    /// The word for a line of worth a word, as it goes out; nothing when there is no such line, when it has gone out,
    /// or when the hall is covered. `line` counts from 0.
    std::optional<wire::PrivateWord> worthWord(int line);
    /// One of the own words, to whoever's panel is open; nothing where they have not agreed to it.
    std::optional<wire::PrivateWord> ownWord(int which);
    /// The relay has answered a word to this person; `error` null: it is on their screen.
    void wordAnswered(PersonId person, const Error* error);

    std::optional<wire::SetBand> moveBand(BandMove move);
    void bandAnswered(PersonId person, const Error* error);

    /// Who is asked to be heard by all.
    [[nodiscard]] Guest& guest() { return m_guest; }
    /// Whoever's panel is open, asked; nothing while somebody is, or where this makes no sense.
    std::optional<wire::InviteToSpeak> inviteOpen();
    /// Her voice goes through Voicehall and the place is hers: people may be asked to be heard.
    void setMayInvite(bool may) { m_mayInvite = may; }

    [[nodiscard]] SeatCounts counts() const;
    /// `titles`: of the sections, in the order of the script.
    [[nodiscard]] HallState state(const QStringList& titles) const;

private:
    enum class Word { onItsWay, said, refused };
    struct Said {
        Word word = Word::onItsWay;
        QString text;    ///< of the word
        QString refusal; ///< why not, where it was refused
    };
    struct Moving {
        float offsetDb = 0;
        int unanswered = 0;
    };
    std::optional<wire::PrivateWord> send(PersonId person, WordKind kind, const QString& text);
    [[nodiscard]] std::vector<WorthLineState> worthLines(const QStringList& titles) const;
    [[nodiscard]] std::optional<SeatPanelState> panel(const std::vector<SeatRow>& rows) const;
    [[nodiscard]] QString aboutGroup(const QStringList& titles) const;
    [[nodiscard]] float offsetOf(const wire::SeatName& seat) const;
    [[nodiscard]] QString sentWords() const;

    SeatBook m_seats;
    std::uint32_t m_here = 0;
    std::vector<wire::WorthOne> m_worth;
    bool m_covered = false;
    bool m_asTable = false;

    std::optional<int> m_open;                   ///< seat number of the open panel
    std::map<PersonId, Said> m_said;             ///< the last word to each
    std::map<PersonId, WorthReason> m_worthSaid; ///< lines whose word has gone out
    std::optional<PersonId> m_lastSaid;
    Guest m_guest;
    bool m_mayInvite = false;
    std::map<PersonId, Moving> m_moving;           ///< not answered yet
    std::map<PersonId, std::vector<float>> m_undo; ///< offsets before each move

    int m_section = -1;
    std::map<int, SeatCounts> m_sectionCounts; ///< as each section left them
};

} // namespace vh::lead
