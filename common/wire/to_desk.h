#pragma once
// What the relay says to those who lead or help, and to nobody else: who sits where, the door, what is to read, calls
// for help, who leads, whom to address, how it went. Part of to_client.h, which includes it.
#include "common/wire/to_relay.h"

namespace vh::wire
{

struct SeatName {
    std::uint32_t seat = 0;
    PersonId person;
    std::string name;
    bool here = false;
    float bandOffsetDb = 0;                    ///< for leaders only; else 0
    Addressed addressed = Addressed::notAtAll; ///< how a leader may address this person; to others "not"
    void fields(auto& visit)
    {
        visit("seat", seat), visit("person", person), visit("name", name, atMost(kNameLength)), visit("here", here);
        visit("bandOffsetDb", bandOffsetDb), visit("addressed", addressed);
    }
};

/// Seats and names, to leaders and helpers: all (`whole`) on joining, then changes.
struct Seats {
    static constexpr std::string_view kName = "seats";
    bool whole = false;
    std::vector<SeatName> seats;
    void fields(auto& visit) { visit("whole", whole), visit("seats", seats, atMost(kPeoplePerHall)); }
};

struct Waiting {
    std::uint64_t door = 0;
    std::string name;
    std::string device;
    Instant since{};
    std::string like; ///< somebody of the group whose name looks the same; empty: nobody
    void fields(auto& visit)
    {
        visit("door", door), visit("name", name, atMost(kNameLength)), visit("device", device, atMost(kLabelLength));
        visit("since", since), visit("like", like, atMost(kNameLength));
    }
};

/// Who waits at the door, whole each time. `words`: the relay's four words, to be read out; empty with a public
/// certificate.
struct Door {
    static constexpr std::string_view kName = "door";
    std::vector<Waiting> waiting;
    std::vector<std::string> words;
    void fields(auto& visit) { visit("waiting", waiting, atMost(kDoorWaiting)), visit("words", words, atMost(4)); }
};

struct Present {
    std::string name;
    bool byHand = false;
    Instant arrived{};
    std::optional<Instant> left;
    void fields(auto& visit)
    {
        visit("name", name, atMost(kNameLength)), visit("byHand", byHand), visit("arrived", arrived);
        visit("left", left);
    }
};

/// Who was there, to leaders and helpers.
struct Attendance {
    static constexpr std::string_view kName = "attendance";
    std::vector<Present> present;
    void fields(auto& visit) { visit("present", present, atMost(kPeoplePerHall)); }
};

/// Who leads and whether they are there; to leaders and stand-ins, at every change.
struct LeaseNow {
    static constexpr std::string_view kName = "lease";
    std::uint32_t lease = 0;
    PersonId holder;
    std::string holderName;
    bool mine = false;
    bool silent = false;
    void fields(auto& visit)
    {
        visit("lease", lease), visit("holder", holder), visit("holderName", holderName, atMost(kNameLength));
        visit("mine", mine), visit("silent", silent);
    }
};

/// Somebody whom the leader may want to address, and why (common/live/worth_a_word.h).
struct WorthOne {
    std::uint32_t seat = 0;
    PersonId person;
    WorthReason reason = WorthReason::easyForTheFirstTime;
    std::uint32_t section = 0; ///< index in the script: where it was so, or since when it has been
    std::uint32_t turns = 0;   ///< how many turns it stands on
    void fields(auto& visit)
    {
        visit("seat", seat), visit("person", person), visit("reason", reason), visit("section", section);
        visit("turns", turns);
    }
};

/// Whom the leader may want to address now, to leaders, whole at every change: three at most, best reason first.
struct WorthNow {
    static constexpr std::string_view kName = "worth";
    std::vector<WorthOne> people;
    void fields(auto& visit) { visit("people", people, atMost(kWorthAtMost)); }
};

/// How the class went, to leaders, when it has ended.
struct Summary {
    static constexpr std::string_view kName = "summary";
    Millis planned{0};
    Millis actual{0};
    std::uint32_t came = 0;        ///< people, by their own line or by hand
    std::uint32_t judgedTurns = 0; ///< of those who share
    std::uint32_t easyTurns = 0;
    std::uint32_t cantTellTurns = 0;
    std::uint32_t calls = 0;
    void fields(auto& visit)
    {
        visit("planned", planned), visit("actual", actual), visit("came", came), visit("judgedTurns", judgedTurns);
        visit("easyTurns", easyTurns), visit("cantTellTurns", cantTellTurns), visit("calls", calls);
    }
};

} // namespace vh::wire
