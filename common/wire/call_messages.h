#pragma once
// Calls for help and lines that were lost: who has them in hand, and the contact (where somebody is, whom to ring),
// which is shown only for a reason and never unlogged. Both directions; part of to_relay.h, to_desk.h and to_client.h,
// which include it. "The desk" below: helpers, leaders, and a stand-in while leading or alone with the group.
#include "common/wire/fields.h"
#include "common/wire/limits.h"

namespace vh::wire
{

// --- from a person -------------------------------------------------------------------------------------------------

/// Where this person is today and whom to ring. The same again: confirmed. Shown as ContactAsk says.
struct Contact {
    static constexpr std::string_view kName = "contact";
    RequestId id;
    std::string where;
    std::string ring;
    void fields(auto& visit)
    {
        visit("id", id), visit("where", where, atMost(kWhereLength)), visit("ring", ring, atMost(kWhereLength));
    }
};

/// "I need help."
struct HelpCall {
    static constexpr std::string_view kName = "helpCall";
    RequestId id;
    void fields(auto& visit) { visit("id", id); }
};

/// "I am all right again" or "that was by mistake": the caller takes back an own call.
struct HelpTakeBack {
    static constexpr std::string_view kName = "helpTakeBack";
    RequestId id;
    std::uint64_t call = 0;
    void fields(auto& visit) { visit("id", id), visit("call", call); }
};

// --- from the desk -------------------------------------------------------------------------------------------------

/// Takes a call for help, which is a look at the contact too; or closes it with a word on what was done.
struct HelpTake {
    static constexpr std::string_view kName = "helpTake";
    RequestId id;
    std::uint64_t call = 0;
    void fields(auto& visit) { visit("id", id), visit("call", call); }
};
struct HelpDone {
    static constexpr std::string_view kName = "helpDone";
    RequestId id;
    std::uint64_t call = 0;
    std::string outcome;
    void fields(auto& visit) { visit("id", id), visit("call", call), visit("outcome", outcome, atMost(kWhereLength)); }
};

enum class Because : std::uint8_t {
    call,     ///< the person has called for help, and that is not done
    lineLost, ///< the person's line is lost, and they agreed to be rung then
};
template <>
struct WireNames<Because> {
    static constexpr std::array<std::string_view, 2> kNames{"call", "lineLost"};
};

/// Asks for somebody's contact. It is logged (who, whose, why, when) before the answer, `contactShown`, leaves.
/// Refused: no-reason; not-agreed (lineLost).
struct ContactAsk {
    static constexpr std::string_view kName = "contactAsk";
    RequestId id;
    PersonId person;
    Because because = Because::call;
    void fields(auto& visit) { visit("id", id), visit("person", person), visit("because", because); }
};

/// What was done about a lost line, after a look at the contact: "rang, all is well". Refused: not-now.
struct LineDone {
    static constexpr std::string_view kName = "lineDone";
    RequestId id;
    PersonId person;
    std::string outcome;
    void fields(auto& visit)
    {
        visit("id", id), visit("person", person), visit("outcome", outcome, atMost(kWhereLength));
    }
};

/// Leaders: whom people are to ring when nobody is there to help, in the group's own words. Empty: nobody.
struct SetWhomToRing {
    static constexpr std::string_view kName = "setWhomToRing";
    RequestId id;
    std::string text;
    void fields(auto& visit) { visit("id", id), visit("text", text, atMost(kWhereLength)); }
};

// --- to the desk ---------------------------------------------------------------------------------------------------

/// One call for help. Without the contact: see HelpTake and ContactAsk.
struct Call {
    std::uint64_t call = 0;
    PersonId person;
    std::string name;
    Instant at{};
    std::string takenBy; ///< empty: nobody yet
    std::optional<PersonId> taker;
    bool done = false;
    void fields(auto& visit)
    {
        visit("call", call), visit("person", person), visit("name", name, atMost(kNameLength)), visit("at", at);
        visit("takenBy", takenBy, atMost(kNameLength)), visit("taker", taker), visit("done", done);
    }
};

/// The changed ones; all unfinished ones on joining (`whole`).
struct Calls {
    static constexpr std::string_view kName = "calls";
    bool whole = false;
    std::vector<Call> calls;
    void fields(auto& visit) { visit("whole", whole), visit("calls", calls, atMost(500)); }
};

/// Somebody's contact, to whoever asked for it or took the call, and to them again on coming back.
struct ContactShown {
    static constexpr std::string_view kName = "contactShown";
    PersonId person;
    Because because = Because::call;
    std::string where;
    std::string ring;
    std::optional<Instant> at; ///< when the person last said so; absent: never
    void fields(auto& visit)
    {
        visit("person", person), visit("because", because), visit("where", where, atMost(kWhereLength));
        visit("ring", ring, atMost(kWhereLength)), visit("at", at);
    }
};

/// Somebody of this class whose line broke off and has not come back within kLineLostAfter.
struct LostLine {
    PersonId person;
    std::string name;
    Instant since{};
    bool mayRing = false;         ///< agreed to: the contact may be asked for
    std::string seenBy;           ///< who has looked at the contact, and not said yet what was done; or empty
    std::optional<PersonId> seer; ///< that person
    bool back = false;            ///< here again; stays only until it is said what was done
    void fields(auto& visit)
    {
        visit("person", person), visit("name", name, atMost(kNameLength)), visit("since", since);
        visit("mayRing", mayRing), visit("seenBy", seenBy, atMost(kNameLength)), visit("seer", seer);
        visit("back", back);
    }
};

/// Whole at every change.
struct LostLines {
    static constexpr std::string_view kName = "lostLines";
    std::vector<LostLine> lines;
    void fields(auto& visit) { visit("lines", lines, atMost(kPeoplePerHall)); }
};

// --- to people -----------------------------------------------------------------------------------------------------

/// The caller's own view of a call.
struct CallStatus {
    static constexpr std::string_view kName = "callStatus";
    std::uint64_t call = 0;
    std::string takenBy;
    bool done = false;
    void fields(auto& visit)
    {
        visit("call", call), visit("takenBy", takenBy, atMost(kNameLength)), visit("done", done);
    }
};

/// The group's words on whom to ring; to everybody when they change.
struct WhomToRing {
    static constexpr std::string_view kName = "whomToRing";
    std::uint64_t seq = 0;
    std::string text;
    void fields(auto& visit) { visit("seq", seq), visit("text", text, atMost(kWhereLength)); }
};

} // namespace vh::wire
