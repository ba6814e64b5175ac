#pragma once
// What the relay says to clients. Each struct is one text message; `kName` is its "type". Lasting messages to the whole
// hall carry `seq`; private ones may carry `after`: they were written once the log had passed that seq.
#include "common/wire/home_messages.h"
#include "common/wire/to_desk.h"

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
    Millis turnLength{0};             ///< as planned, and what the leader has given it besides
    LeftOut leftOut{};                ///< steps that this class leaves out, in order
    HomeLine line = HomeLine::classNotStarted;
    std::string leaderName; ///< who holds the place now
    std::uint32_t lease = 0;
    void fields(auto& visit)
    {
        visit("seq", seq), visit("class", classId), visit("revision", revision), visit("serial", serial);
        visit("turnSerial", turnSerial), visit("phase", phase), visit("place", place), visit("startedAt", startedAt),
            visit("turnStartedAt", turnStartedAt);
        visit("turnSpent", turnSpent), visit("turnLength", turnLength);
        visit("leftOut", leftOut, noneOrAtMost(kMostLeftOut)), visit("line", line);
        visit("leaderName", leaderName, atMost(kNameLength)), visit("lease", lease);
    }
};

/// The class that is open: its parts, the script first. Said again, with other parts, when it has been corrected.
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

struct BoardItem {
    std::uint64_t item = 0;
    std::uint64_t change = 0; ///< rises with every change of the board: what to name in login's boardSince
    ItemKind kind = ItemKind::line;
    std::string name; ///< of the author, where they agreed to be seen; else empty
    std::string text; ///< of a picture: its caption
    Instant at{};
    bool gone = false; ///< it was on the board, and is there no longer; the text is empty
    std::optional<PictureAbout> picture{};
    void fields(auto& visit)
    {
        visit("item", item), visit("change", change), visit("kind", kind), visit("gone", gone);
        visit("name", name, atMost(kNameLength));
        visit("text", text, atMost(kChatLength)), visit("at", at), visit("picture", picture);
    }
};

/// What came onto the board, or went from it.
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
    std::uint32_t leaders = 0; ///< leaders here, and a stand-in while leading
    std::uint32_t hellos = 0;  ///< people who have said hello in this class
    bool saidHello = false;    ///< this person has
    std::vector<AgreementValue> agreements;
    std::string where;
    std::string ring;
    std::string whomToRing; ///< the group's words, for when nobody is there to help; may be empty
    float bandOffsetDb = 0;
    std::optional<ClassOpen> open;
    std::optional<PlaceNow> place;
    std::vector<BoardItem> board;
    std::vector<std::uint64_t> own;  ///< items on the board, or still to be read, that this person wrote
    std::vector<Answer> answers;     ///< to this person, of the last day
    std::optional<MayWrite> writing; ///< absent: this person may write
    std::vector<CallStatus> calls;   ///< this person's own, unanswered or unfinished
    std::optional<VoiceNow> voice;   ///< absent: none
    std::optional<Speaking> speaking;
    std::optional<InvitedToSpeak> invited;
    std::optional<HandoutNow> handout;  ///< of the class that is open, or was the last
    std::optional<PictureNow> inWindow; ///< absent: nothing is shown in the group's window
    void fields(auto& visit)
    {
        visit("epoch", epoch), visit("seq", seq), visit("now", now), visit("group", group);
        visit("groupName", groupName, atMost(kTitleLength)), visit("code", code, atMost(16));
        visit("person", person), visit("name", name, atMost(kNameLength)), visit("role", role), visit("seat", seat);
        visit("here", here), visit("helpers", helpers), visit("leaders", leaders), visit("hellos", hellos);
        visit("saidHello", saidHello);
        visit("agreements", agreements, atMost(32));
        visit("where", where, atMost(kWhereLength)), visit("ring", ring, atMost(kWhereLength));
        visit("whomToRing", whomToRing, atMost(kWhereLength));
        visit("bandOffsetDb", bandOffsetDb), visit("open", open), visit("place", place);
        visit("board", board, atMost(kBoardTail)), visit("own", own, atMost(kBoardTail + 100));
        visit("answers", answers, atMost(kBoardTail)), visit("writing", writing), visit("calls", calls, atMost(20));
        visit("voice", voice), visit("speaking", speaking), visit("invited", invited);
        visit("handout", handout), visit("inWindow", inWindow);
    }
};

/// Done, and on disk. What a request gave stands in the optional fields.
struct Ack {
    static constexpr std::string_view kName = "ack";
    RequestId id;
    std::optional<std::uint64_t> item;   ///< write, notice, a picture's last piece: the board item; helpCall: the call
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
    std::uint32_t leaders = 0; ///< leaders, and a stand-in while leading
    void fields(auto& visit)
    {
        visit("here", here), visit("helpers", helpers), visit("hellos", hellos), visit("leaders", leaders);
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

using ToClient =
    std::variant<Challenge, AtDoor, Welcome, PlaceNow, ClassOpen, Board, CallStatus, Ack, Refused, Unsupported,
                 ClockAnswer, Here, Seats, Door, OnDesk, Claimed, DeskNow, Acts, Answer, MayWrite, Calls, Attendance,
                 LeaseNow, WordHeard, WorthNow, Band, Devices, Summary, VoiceNow, InvitedToSpeak, Speaking, InviteOver,
                 HandoutNow, PictureNow, ContactShown, LostLines, WhomToRing, OwnNow, People>;

} // namespace vh::wire
