#pragma once
// What people write, and what a helper does with it: to be read, going up, on the board; with the leader or a
// clinician; answered. Both directions; part of to_relay.h, to_desk.h and to_client.h, which include it. Texts are
// plain and fit to be shown (the relay sees to it); nothing in them is ever markup.
#include "common/wire/fields.h"
#include "common/wire/limits.h"
#include "common/wire/picture_messages.h"

namespace vh::wire
{

// --- to the relay --------------------------------------------------------------------------------------------------

/// A line for the board, of at most kChatLength code points. Held until it is let through, unless the group's board is
/// open. Refused: many-held, quiet (the helper has asked this person to pause), text-empty, text-too-long.
struct Write {
    static constexpr std::string_view kName = "write";
    RequestId id;
    std::string text;
    void fields(auto& visit) { visit("id", id), visit("text", text, atMost(kWrittenLength)); }
};

/// The author's own line or picture goes, from the board too. item-unknown.
struct TakeBackOwn {
    static constexpr std::string_view kName = "takeBackOwn";
    RequestId id;
    std::uint64_t item = 0;
    void fields(auto& visit) { visit("id", id), visit("item", item); }
};

enum class Decision : std::uint8_t {
    show,      ///< onto the board, kGoesUpAfter later
    setAside,  ///< read, and not shown; off the board if it was on it
    forLeader, ///< a question onto the leader's screen, kQuestionsAtMost at most
    clinician, ///< what a volunteer should not answer alone: to the leader at once
    hold,      ///< back to what is to be read: undoes any of the others
    forWindow, ///< a picture: with the leader, who shows it to all in the group's window (ShowPicture)
};
template <>
struct WireNames<Decision> {
    static constexpr std::array<std::string_view, 6> kNames{"show",      "setAside", "forLeader",
                                                            "clinician", "hold",     "forWindow"};
};

/// What becomes of a line or picture, by somebody at the desk who has seen it at `change`. Refused: item-unknown;
/// item-changed (somebody else has done something with it since: the message says who and what); many-questions;
/// decision-impossible (it is so already).
struct Decide {
    static constexpr std::string_view kName = "decide";
    RequestId id;
    std::uint64_t item = 0;
    std::uint64_t change = 0;
    Decision decision = Decision::show;
    void fields(auto& visit)
    {
        visit("id", id), visit("item", item), visit("change", change), visit("decision", decision);
    }
};

/// "I am reading this": others at the desk see it. Live, no answer; ends with `on` false, a decision, or the line.
struct Claim {
    static constexpr std::string_view kName = "claim";
    std::uint64_t item = 0;
    bool on = false;
    void fields(auto& visit) { visit("item", item), visit("on", on); }
};

/// An answer to what somebody wrote: to that person alone, or to the hall. The item counts as seen to, unless it is on
/// the board or going there. Refused: item-unknown, text-empty, text-too-long.
struct Reply {
    static constexpr std::string_view kName = "reply";
    RequestId id;
    std::uint64_t item = 0;
    bool toAll = false;
    std::string text;
    void fields(auto& visit)
    {
        visit("id", id), visit("item", item), visit("toAll", toAll), visit("text", text, atMost(kWrittenLength));
    }
};

enum class Rest : std::uint8_t {
    none,       ///< writes again, may come in again
    tenMinutes, ///< what the person writes is refused for kQuietFor
    theClass,   ///< until the class is over, or kRestsAtMost
    out,        ///< out of the class, likewise; `reason` is what the person is told
};
template <>
struct WireNames<Rest> {
    static constexpr std::array<std::string_view, 4> kNames{"none", "tenMinutes", "theClass", "out"};
};
/// Participants and stand-ins only (not-them), known to the group (person-unknown); `out` needs a reason
/// (reason-empty).
struct SetRest {
    static constexpr std::string_view kName = "setRest";
    RequestId id;
    PersonId person;
    Rest rest = Rest::none;
    std::string reason;
    void fields(auto& visit)
    {
        visit("id", id), visit("person", person), visit("rest", rest);
        visit("reason", reason, atMost(kReasonLength));
    }
};

/// Whether lines are shown at once, unread. A leader's choice; lasts.
struct OpenBoard {
    static constexpr std::string_view kName = "openBoard";
    RequestId id;
    bool open = false;
    void fields(auto& visit) { visit("id", id), visit("open", open); }
};

/// Whether helpers see, in the class that is open, how those stand who agreed to helpers seeing it. A leader's choice;
/// off when a class opens, and again when it is over. no-class.
struct LevelsToDesk {
    static constexpr std::string_view kName = "levelsToDesk";
    RequestId id;
    bool on = false;
    void fields(auto& visit) { visit("id", id), visit("on", on); }
};

/// The leader has taken a question, what needed a clinician, or a picture for the window. item-unknown.
struct TakeItem {
    static constexpr std::string_view kName = "takeItem";
    RequestId id;
    std::uint64_t item = 0;
    void fields(auto& visit) { visit("id", id), visit("item", item); }
};

/// Asks what was done at the desk: in one class of the group, or lately. The answer is `acts`. class-unknown.
struct ActsAsk {
    static constexpr std::string_view kName = "actsAsk";
    std::optional<ClassId> classId;
    void fields(auto& visit) { visit("class", classId); }
};

// --- to those at the desk and who lead -----------------------------------------------------------------------------

enum class DeskState : std::uint8_t { held, shown, setAside, goingUp, withLeader, withClinician, seenTo, forWindow };
template <>
struct WireNames<DeskState> {
    static constexpr std::array<std::string_view, 8> kNames{"held",       "shown",         "setAside", "goingUp",
                                                            "withLeader", "withClinician", "seenTo",   "forWindow"};
};

enum class ItemKind : std::uint8_t { line, notice, picture };
template <>
struct WireNames<ItemKind> {
    static constexpr std::array<std::string_view, 3> kNames{"line", "notice", "picture"};
};

struct DeskItem {
    std::uint64_t item = 0;
    std::uint64_t change = 0; ///< to be named in `decide`
    PersonId person;
    std::string name;
    std::string text; ///< of a picture: its caption
    Instant at{};
    DeskState state = DeskState::held;
    std::string by;                        ///< who put it there; empty while nobody did
    std::optional<Instant> due;            ///< of what is going up
    ItemKind kind = ItemKind::line;        ///< line or picture
    std::optional<PictureAbout> picture{}; ///< of a picture, while its bytes are kept
    void fields(auto& visit)
    {
        visit("item", item), visit("change", change), visit("person", person);
        visit("name", name, atMost(kNameLength)), visit("text", text, atMost(kChatLength)), visit("at", at);
        visit("state", state), visit("by", by, atMost(kNameLength)), visit("due", due);
        visit("kind", kind), visit("picture", picture);
    }
};

/// To helpers and leaders: all that is in hand on joining (`whole`), oldest first; then each item as it is now.
struct OnDesk {
    static constexpr std::string_view kName = "onDesk";
    bool whole = false;
    std::vector<DeskItem> items;
    void fields(auto& visit) { visit("whole", whole), visit("items", items, atMost(kDeskItems)); }
};

/// Who reads what; `by` empty: nobody any more.
struct Claimed {
    static constexpr std::string_view kName = "claimed";
    std::uint64_t item = 0;
    std::string by;
    void fields(auto& visit) { visit("item", item), visit("by", by, atMost(kNameLength)); }
};

/// How the desk is set: whether the board is open, whether helpers see levels, whose writing rests and who is out.
/// Whole at every change.
struct Resting {
    PersonId person;
    std::string name;
    Rest rest = Rest::tenMinutes;
    Instant until{};
    void fields(auto& visit)
    {
        visit("person", person), visit("name", name, atMost(kNameLength)), visit("rest", rest), visit("until", until);
    }
};
struct DeskNow {
    static constexpr std::string_view kName = "deskNow";
    bool boardOpen = false;
    bool levels = false;
    std::vector<Resting> resting;
    void fields(auto& visit)
    {
        visit("boardOpen", boardOpen), visit("levels", levels), visit("resting", resting, atMost(kPeoplePerHall));
    }
};

/// What was done at the desk, oldest first: from the opening of the class until an hour after its end, or in the last
/// day. The last 500.
struct Act {
    Instant at{};
    std::string who;
    std::string what;   ///< stable: "line-shown", "line-set-aside", "quiet", ...: docs/protocol.md
    std::string whom;   ///< whose line, or to whom; may be empty
    std::string detail; ///< may be empty
    void fields(auto& visit)
    {
        visit("at", at), visit("who", who, atMost(kNameLength)), visit("what", what, atMost(kLabelLength));
        visit("whom", whom, atMost(kNameLength)), visit("detail", detail, atMost(kChatLength));
    }
};
struct Acts {
    static constexpr std::string_view kName = "acts";
    std::vector<Act> acts;
    void fields(auto& visit) { visit("acts", acts, atMost(kDeskItems)); }
};

// --- to one person -------------------------------------------------------------------------------------------------

/// A helper's answer to this person alone; `about` is what they had written.
struct Answer {
    static constexpr std::string_view kName = "answer";
    std::uint64_t item = 0; ///< of the answer: the same one may come again after a broken line
    std::string from;
    std::string about;
    std::string text;
    Instant at{};
    void fields(auto& visit)
    {
        visit("item", item), visit("from", from, atMost(kNameLength)), visit("about", about, atMost(kChatLength));
        visit("text", text, atMost(kChatLength)), visit("at", at);
    }
};

/// Whether this person may write, and when they may again.
struct MayWrite {
    static constexpr std::string_view kName = "mayWrite";
    std::optional<Instant> restsUntil; ///< nothing: may write
    void fields(auto& visit) { visit("restsUntil", restsUntil); }
};

} // namespace vh::wire
