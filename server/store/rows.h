#pragma once
// What the store keeps, as plain values: one struct for each kind of row. Which tables they live in and how long each
// is kept: docs/storage.md. Times are server time in whole milliseconds; levels are tenths of a decibel. Thread: any.
#include "common/base/clock.h"
#include "common/base/id.h"

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace vh::store
{

using Bytes = std::vector<std::uint8_t>;
/// SHA-256.
using Hash = std::array<std::uint8_t, 32>;
/// Ed25519.
using PublicKey = std::array<std::uint8_t, 32>;
/// The secret in a one-time link. Only its hash is stored.
using LinkToken = Bits128;

/// Stored by these numbers: never renumber.
enum class Role : std::uint8_t { participant = 0, leader = 1, helper = 2, standIn = 3 };

enum class AgreementKind : std::uint8_t {
    levelVisible = 0,     ///< "nobody" | "leader" | "leader-and-helpers"
    resultsKept = 1,      ///< "no" | "yes"
    otherLeaders = 2,     ///< "no" | "yes"
    attendanceNamed = 3,  ///< "no" | "yes"
    practiceToLeader = 4, ///< "no" | "yes"
    addressed = 5,        ///< "not" | "kind" | "prompts"
    nameSeen = 6,         ///< "no" | "yes"
    pictures = 7,         ///< "no" | "yes"
    mayRing = 8,          ///< "no" | "yes"
};
inline constexpr std::size_t kAgreementKinds = 9;
/// The allowed values, the most private first: that one holds until the person has said otherwise.
const std::vector<std::string_view>& valuesOf(AgreementKind kind);

/// For how many days what a class leaves behind is kept; docs/storage.md says what each covers.
struct Retention {
    int boardDays = 30;
    int resultDays = 365;
    int attendanceDays = 365;
    int logDays = 365;
    friend bool operator==(const Retention&, const Retention&) = default;
};

struct GroupRow {
    GroupId id;
    std::string name;
    std::string code; ///< the join code, unique in this relay (common/base/join_code.h)
    Instant createdAt{};
    Retention retention;
    bool boardOpen = false; ///< what people write is shown at once, unread
};

struct PersonRow {
    PersonId id;
    GroupId group;
    std::string name;
    std::optional<int> seat; ///< from 0, fixed; nothing once the person is removed
    Instant createdAt{};
    std::optional<Instant> removedAt;
};

struct DeviceRow {
    PublicKey key{};
    PersonId person;
    std::string label; ///< "laptop"
    Instant since{};
    Instant lastSeen{};
    std::optional<Instant> revokedAt;
};

struct AgreementRow {
    PersonId person;
    AgreementKind kind{};
    std::string value; ///< one of valuesOf(kind)
    int wordingVersion = 1;
    std::optional<PublicKey> device; ///< nothing: said aloud and entered by a leader
    Instant at{};
};

/// How far a leader has moved one person's target band.
struct BandRow {
    PersonId person;
    int offsetTenthsDb = 0;
    PersonId setBy; ///< null once that person was erased
    Instant at{};
};

/// Where somebody is during class, and whom to ring in an emergency. Free text, as the person gave it.
struct ContactRow {
    PersonId person;
    std::string whereabouts;
    std::string whomToRing;
    Instant at{};
};

struct ClassRow {
    ClassId id;
    GroupId group;
    PersonId leader; ///< null once that person was erased
    std::string title;
    Hash script{}; ///< the part that holds the frozen script; a correction in class replaces it
    Instant startedAt{};
    std::optional<Instant> endedAt;
    bool levelsToDesk = false; ///< helpers see how those stand who agreed to it
};

/// What is published for a class: the script, pictures. Addressed by what it contains.
struct PartRow {
    Hash hash{};
    std::string kind; ///< "script", "picture", "sent-picture"
    Bytes bytes;
};

/// What the people of a group may fetch of the class that is open or was the last.
struct HandoutRow {
    GroupId group;
    ClassId classId;
    std::string title; ///< of the class; not stored with the handout
    Hash hash{};       ///< of the whole file
    std::int64_t bytes = 0;
    std::vector<Hash> parts; ///< in order
};

/// One change of place. `state` is the hall's own encoding; the store does not look inside.
struct PlaceRow {
    ClassId classId;
    std::int64_t revision = 0; ///< goes up by at least one with every change
    std::int64_t leaseEpoch = 0;
    Bytes state;
    Instant at{};
};

struct AttendanceRow {
    ClassId classId;
    std::optional<PersonId> person; ///< nothing: written in by hand, or not under a name
    std::string name;               ///< may be empty where attendance is not kept under the name
    Instant arrivedAt{};
    std::optional<Instant> leftAt;
    bool byHand = false;
};

enum class BoardKind : std::uint8_t { chat = 0, notice = 1, picture = 2, reply = 3 };
enum class BoardState : std::uint8_t {
    held = 0,          ///< to be read
    shown = 1,         ///< on the board; a reply: said
    setAside = 2,      ///< read, and not shown
    goingUp = 3,       ///< let through; on the board from `due` on
    withLeader = 4,    ///< a question on the leader's screen
    withClinician = 5, ///< what a volunteer should not answer alone
    seenTo = 6,        ///< answered to one, or taken by the leader
    forWindow = 7,     ///< a picture, with the leader, who may show it in the group's window
};

struct BoardRow {
    std::int64_t id = 0; ///< never used twice
    /// Number of this item's last change, never used twice and always rising within the relay. "The board since N"
    /// means changes above N: an item let through late, or taken back, is not missed.
    std::int64_t change = 0;
    GroupId group;
    std::optional<ClassId> classId;
    std::optional<PersonId> author; ///< nothing: the relay itself
    BoardKind kind = BoardKind::chat;
    BoardState state = BoardState::held;
    std::string text;            ///< of a picture: its caption
    std::optional<Hash> picture; ///< of a picture, while its bytes are kept: the part
    Instant at{};
    std::optional<PersonId> decidedBy;
    std::optional<Instant> decidedAt;
    bool wasShown = false;               ///< so that taking it back reaches those who saw it
    std::optional<Instant> due;          ///< of what is going up
    std::optional<PersonId> to;          ///< of a reply to one person
    std::optional<std::int64_t> answers; ///< of a reply: the item
    int width = 0;                       ///< of a picture, px
    int height = 0;                      ///< likewise
};

/// A picture as it is to be shown.
struct PictureRow {
    Bytes bytes;
    int width = 0;  ///< px
    int height = 0; ///< px
};

/// A reply to one person, and what they had written.
struct RepliedRow {
    BoardRow reply;
    std::string about;
};

/// Somebody's writing rests, or the person is out of the class: for so long, and no longer than that class.
enum class RestKind : std::uint8_t { quietForAWhile = 0, quietForTheClass = 1, outOfTheClass = 2 };
struct RestRow {
    PersonId person;
    RestKind kind = RestKind::quietForAWhile;
    std::optional<ClassId> classId; ///< ends with it
    Instant until{};
    std::string reason; ///< as the person was told; may be empty
};

struct CallRow {
    std::int64_t id = 0;
    GroupId group;
    std::optional<ClassId> classId;
    PersonId person;
    Instant at{};
    std::optional<PersonId> takenBy;
    std::optional<Instant> takenAt;
    std::optional<Instant> doneAt;
    std::string outcome;
};

/// The line of somebody in class who may be rung when it breaks off.
struct WatchedLineRow {
    PersonId person;
    ClassId classId;
    std::optional<Instant> lostAt;  ///< nothing: it is up, as far as is known
    std::optional<PersonId> seenBy; ///< who has looked at the contact, and not said yet what was done
};

/// What one turn amounted to. Written only for people who agreed that their results are kept: the caller decides.
struct TurnResultRow {
    PersonId person;
    ClassId classId;
    std::int64_t turnSerial = 0;
    std::string sectionKind; ///< name in the script format
    Millis voiced{0};
    std::optional<int> leqOverUsualTenthsDb;
    std::string standing; ///< code in words.md's table
    std::string blank;    ///< why there is no value; empty when there is one
    int judgeVersion = 1;
    Instant at{};
};

/// Who did what to whom, for things a leader may undo.
struct LogRow {
    std::int64_t id = 0;
    GroupId group;
    std::optional<PersonId> who; ///< nothing: the operator
    std::string what;            ///< stable, lower case, hyphens
    std::optional<PersonId> target;
    std::string detail;
    Instant at{};
    std::optional<std::int64_t> undoes;
};

struct OnceAnswer {
    std::string answer;
    bool again = false; ///< the work was done by an earlier request with the same id
};

struct PersonState {
    PersonRow person;
    std::vector<Role> roles;
    std::vector<DeviceRow> devices;       ///< revoked ones too
    std::vector<AgreementRow> agreements; ///< the newest of each kind that was ever answered
    std::optional<BandRow> band;
};

/// Everything a hall needs to come back after a start.
struct HallState {
    GroupRow group;
    std::vector<PersonState> people; ///< by seat; removed people are not in it
    std::optional<ClassRow> openClass;
    std::optional<PlaceRow> place; ///< the open class's latest
    std::optional<HandoutRow> handout;
    std::vector<BoardRow> board;      ///< the newest shown items, oldest first
    std::vector<BoardRow> gone;       ///< lately taken off the board, in the order of that
    std::int64_t boardChange = 0;     ///< ask for changes above this next
    std::vector<BoardRow> desk;       ///< what a helper or the leader has in hand or may undo, oldest first
    std::vector<RepliedRow> replies;  ///< to one person, of the last day, oldest first
    std::optional<BoardRow> inWindow; ///< the picture that is in the group's window
    std::vector<RestRow> rests;
    std::vector<CallRow> calls; ///< not yet done, oldest first
    std::vector<WatchedLineRow> lines;
    std::string whomToRing; ///< when nobody is there to help; may be empty
};

} // namespace vh::store
