#pragma once
// What the relay says to clients. Each struct is one text message; `kName` is its "type". Lasting messages to the whole
// hall carry `seq`; private ones may carry `after`: they were written once the log had passed that seq.
#include "common/wire/to_relay.h"

namespace vh::wire
{

/// The answer to hello: what to sign, and which protocol version is spoken from here on.
struct Challenge {
    static constexpr std::string_view kName = "challenge";
    Bytes<32> nonce{};
    std::uint32_t version = kVersion;
    HallEpoch epoch;
    void fields(auto& visit) { visit("nonce", nonce), visit("version", version), visit("epoch", epoch); }
};

/// Whoever knocked waits. `words` are the four words of the relay's key, to be compared by voice; empty where the
/// certificate is a public one.
struct AtDoor {
    static constexpr std::string_view kName = "atDoor";
    GroupId group;
    std::string groupName;
    std::vector<std::string> words;
    void fields(auto& visit)
    {
        visit("group", group), visit("groupName", groupName, atMost(kTitleLength));
        visit("words", words, atMost(4));
    }
};

/// Where the class is. Sent to everybody at every change.
struct PlaceNow {
    static constexpr std::string_view kName = "place";
    std::uint64_t seq = 0;
    ClassId classId;
    std::uint32_t revision = 1;   ///< of the script
    std::uint32_t serial = 0;     ///< one more at every change
    std::uint32_t turnSerial = 0; ///< the turn's id: readings and results name it
    Phase phase = Phase::notStarted;
    Place place;
    std::optional<Instant> startedAt; ///< of the class, by the relay's clock; absent until it has begun
    Instant turnStartedAt{};          ///< by the relay's clock; meaningful while running
    Millis turnSpent{0};              ///< while the clock is held
    Millis turnLength{0};
    HomeLine line = HomeLine::classNotStarted;
    std::string leaderName; ///< who holds the place now
    std::uint32_t lease = 0;
    void fields(auto& visit)
    {
        visit("seq", seq), visit("class", classId), visit("revision", revision), visit("serial", serial);
        visit("turnSerial", turnSerial), visit("phase", phase), visit("place", place), visit("startedAt", startedAt),
            visit("turnStartedAt", turnStartedAt);
        visit("turnSpent", turnSpent), visit("turnLength", turnLength), visit("line", line);
        visit("leaderName", leaderName, atMost(kNameLength)), visit("lease", lease);
    }
};

/// The class that is open: its parts, the script first.
struct ClassOpen {
    static constexpr std::string_view kName = "class";
    std::uint64_t seq = 0;
    ClassId classId;
    std::string title;
    std::vector<Hash> parts;
    void fields(auto& visit)
    {
        visit("seq", seq), visit("class", classId), visit("title", title, atMost(kTitleLength));
        visit("parts", parts, atMost(kPartsPerClass));
    }
};

enum class ItemKind : std::uint8_t { line, notice };
template <>
struct WireNames<ItemKind> {
    static constexpr std::array<std::string_view, 2> kNames{"line", "notice"};
};

struct BoardItem {
    std::uint64_t item = 0;
    std::uint64_t change = 0; ///< rises with every change of the board: what to name in login's boardSince
    ItemKind kind = ItemKind::line;
    std::string name; ///< of the author, where they agreed to be seen; else empty
    std::string text;
    Instant at{};
    void fields(auto& visit)
    {
        visit("item", item), visit("change", change), visit("kind", kind);
        visit("name", name, atMost(kNameLength));
        visit("text", text, atMost(kChatLength)), visit("at", at);
    }
};

/// What came onto the board.
struct Board {
    static constexpr std::string_view kName = "board";
    std::uint64_t seq = 0;
    std::vector<BoardItem> items;
    void fields(auto& visit) { visit("seq", seq), visit("items", items, atMost(kBoardTail)); }
};

struct AgreementValue {
    AgreementKind kind = AgreementKind::levelVisible;
    std::string value;
    void fields(auto& visit) { visit("kind", kind), visit("value", value, atMost(32)); }
};

/// One call for help as helpers and leaders see it.
struct Call {
    std::uint64_t call = 0;
    PersonId person;
    std::string name;
    std::string where;
    std::string ring;
    Instant at{};
    std::string takenBy; ///< empty: nobody yet
    bool done = false;
    void fields(auto& visit)
    {
        visit("call", call), visit("person", person), visit("name", name, atMost(kNameLength));
        visit("where", where, atMost(kWhereLength)), visit("ring", ring, atMost(kWhereLength)), visit("at", at);
        visit("takenBy", takenBy, atMost(kNameLength)), visit("done", done);
    }
};

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

/// Everything a client needs, at every start and every resume. There is no replay.
struct Welcome {
    static constexpr std::string_view kName = "welcome";
    HallEpoch epoch;
    std::uint64_t seq = 0;
    Instant now{};
    GroupId group;
    std::string groupName;
    std::string code; ///< the join code, for leaders and helpers only
    PersonId person;
    std::string name;
    Role role = Role::participant;
    std::uint32_t seat = 0;
    std::uint32_t here = 0;    ///< people in class
    std::uint32_t helpers = 0; ///< helpers here
    std::uint32_t hellos = 0;  ///< people who have said hello in this class
    bool saidHello = false;    ///< this person has
    std::vector<AgreementValue> agreements;
    std::string where;
    std::string ring;
    float bandOffsetDb = 0;
    std::optional<ClassOpen> open;
    std::optional<PlaceNow> place;
    std::vector<BoardItem> board;
    std::vector<CallStatus> calls; ///< this person's own, unanswered or unfinished
    void fields(auto& visit)
    {
        visit("epoch", epoch), visit("seq", seq), visit("now", now), visit("group", group);
        visit("groupName", groupName, atMost(kTitleLength)), visit("code", code, atMost(16));
        visit("person", person), visit("name", name, atMost(kNameLength)), visit("role", role), visit("seat", seat);
        visit("here", here), visit("helpers", helpers), visit("hellos", hellos), visit("saidHello", saidHello);
        visit("agreements", agreements, atMost(32));
        visit("where", where, atMost(kWhereLength)), visit("ring", ring, atMost(kWhereLength));
        visit("bandOffsetDb", bandOffsetDb), visit("open", open), visit("place", place);
        visit("board", board, atMost(kBoardTail)), visit("calls", calls, atMost(20));
    }
};

/// Done, and on disk. What a request gave stands in the optional fields.
struct Ack {
    static constexpr std::string_view kName = "ack";
    RequestId id;
    std::optional<std::uint64_t> item;   ///< write, notice: the board item; helpCall: the call
    std::optional<Token> token;          ///< invite, secondDevice: of the one-time link
    std::optional<std::uint32_t> serial; ///< lead: the place's serial after it
    std::optional<std::uint32_t> lease;  ///< takePlace, openClass
    std::optional<ClassId> classId;      ///< openClass
    void fields(auto& visit)
    {
        visit("id", id), visit("item", item), visit("token", token), visit("serial", serial), visit("lease", lease);
        visit("class", classId);
    }
};

/// Not done, and why, in words. Codes: docs/protocol.md.
struct Refused {
    static constexpr std::string_view kName = "refused";
    std::optional<RequestId> id;
    std::string code;
    std::string message;
    void fields(auto& visit)
    {
        visit("id", id), visit("code", code, atMost(40)), visit("message", message, atMost(300));
    }
};

/// The answer to a text message of a kind this relay does not know. The line stays up.
struct Unsupported {
    static constexpr std::string_view kName = "unsupported";
    std::string what;
    void fields(auto& visit) { visit("what", what, atMost(60)); }
};

/// The relay's time. `sent` is the client's own, echoed.
struct ClockAnswer {
    static constexpr std::string_view kName = "clockAnswer";
    std::int64_t sent = 0;
    Instant received{};
    Instant answered{};
    void fields(auto& visit) { visit("sent", sent), visit("received", received), visit("answered", answered); }
};

/// How many are here, and how many of the class have said hello; at most once a second.
struct Here {
    static constexpr std::string_view kName = "here";
    std::uint32_t here = 0;
    std::uint32_t helpers = 0;
    std::uint32_t hellos = 0;
    void fields(auto& visit) { visit("here", here), visit("helpers", helpers), visit("hellos", hellos); }
};

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
    void fields(auto& visit)
    {
        visit("door", door), visit("name", name, atMost(kNameLength)), visit("device", device, atMost(kLabelLength));
        visit("since", since);
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

struct HeldLine {
    std::uint64_t item = 0;
    std::string name;
    std::string text;
    Instant at{};
    void fields(auto& visit)
    {
        visit("item", item), visit("name", name, atMost(kNameLength)), visit("text", text, atMost(kChatLength));
        visit("at", at);
    }
};

/// What is to read, oldest first: all of it on joining, then what came; and what was decided meanwhile, by whom.
struct ToRead {
    static constexpr std::string_view kName = "toRead";
    bool whole = false;
    std::vector<HeldLine> lines;
    void fields(auto& visit) { visit("whole", whole), visit("lines", lines, atMost(1000)); }
};
struct Decided {
    static constexpr std::string_view kName = "decided";
    std::uint64_t item = 0;
    Decision decision = Decision::show;
    std::string by;
    void fields(auto& visit) { visit("item", item), visit("decision", decision), visit("by", by, atMost(kNameLength)); }
};

/// Calls for help, to helpers and leaders: the changed ones; all unfinished ones on joining.
struct Calls {
    static constexpr std::string_view kName = "calls";
    std::vector<Call> calls;
    void fields(auto& visit) { visit("calls", calls, atMost(500)); }
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

/// A word from the leader to this person alone.
struct WordHeard {
    static constexpr std::string_view kName = "word";
    WordKind kind = WordKind::kind;
    std::string from; ///< the leader's name
    std::string text;
    void fields(auto& visit)
    {
        visit("kind", kind), visit("from", from, atMost(kNameLength)), visit("text", text, atMost(kWordLength));
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

/// Your own band was moved.
struct Band {
    static constexpr std::string_view kName = "band";
    float offsetDb = 0;
    void fields(auto& visit) { visit("offsetDb", offsetDb); }
};

struct OwnDevice {
    Key key{};
    std::string label;
    Instant since{};
    bool revoked = false;
    void fields(auto& visit)
    {
        visit("key", key), visit("label", label, atMost(kLabelLength)), visit("since", since),
            visit("revoked", revoked);
    }
};
struct Devices {
    static constexpr std::string_view kName = "devices";
    std::vector<OwnDevice> devices;
    void fields(auto& visit) { visit("devices", devices, atMost(50)); }
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

using ToClient = std::variant<Challenge, AtDoor, Welcome, PlaceNow, ClassOpen, Board, CallStatus, Ack, Refused,
                              Unsupported, ClockAnswer, Here, Seats, Door, ToRead, Decided, Calls, Attendance, LeaseNow,
                              WordHeard, WorthNow, Band, Devices, Summary>;

} // namespace vh::wire
