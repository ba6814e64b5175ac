#pragma once
// The typed face of the database: one small class for each kind of thing, each method one prepared statement or a few.
// Thread: the store's writer only, inside a job (store.h); a Tables& is good for the length of that job.
// Failure: what a caller can run into by asking (an expired link, an unknown person) comes as an Error with the code
// named at the method. What the database itself cannot do is thrown as SQLite::Exception and caught at the job's
// border: the job is rolled back and answered with "store-failed". A job that returns an Error leaves nothing behind
// either.
#include "common/base/result.h"
#include "server/store/rows.h"

#include <functional>
#include <span>

namespace vh::store
{

class Statements;

/// What every table class below has: access to the statements.
class Table
{
public:
    explicit Table(Statements& statements) : m_statements(&statements) {}

protected:
    Statements* m_statements;
};

class Groups : Table
{
public:
    using Table::Table;
    /// With a fresh join code.
    GroupRow add(const std::string& name, Instant now);
    [[nodiscard]] std::optional<GroupRow> byId(GroupId id) const;
    /// `code` as stored: see normaliseCode().
    [[nodiscard]] std::optional<GroupRow> byCode(const std::string& code) const;
    [[nodiscard]] std::vector<GroupRow> all() const;                   ///< oldest first
    Result<std::string> renewCode(GroupId id);                         ///< group-unknown
    Result<void> setRetention(GroupId id, const Retention& retention); ///< group-unknown
    Result<void> setBoardOpen(GroupId id, bool open);                  ///< group-unknown
};

class People : Table
{
public:
    using Table::Table;
    /// Takes the lowest free seat of the group. group-unknown.
    Result<PersonRow> add(GroupId group, const std::string& name, Role role, Instant now);
    [[nodiscard]] std::optional<PersonRow> byId(PersonId id) const;
    [[nodiscard]] std::vector<PersonRow> ofGroup(GroupId group) const; ///< by seat; without the removed
    Result<void> rename(PersonId id, const std::string& name);         ///< person-unknown
    /// Leaves the group: seat freed, devices revoked, what was kept about the person stays until retention or erase().
    Result<void> remove(PersonId id, Instant now); ///< person-unknown
    /// Everything about the person goes, from the file too, before the job is acknowledged. person-unknown.
    Result<void> erase(PersonId id);

    void grant(PersonId id, Role role); ///< a second time: nothing happens
    void withdraw(PersonId id, Role role);
    [[nodiscard]] std::vector<Role> rolesOf(PersonId id) const;

    void setBand(const BandRow& band);
    [[nodiscard]] std::optional<BandRow> bandOf(PersonId id) const;
    void setContact(const ContactRow& contact);
    [[nodiscard]] std::optional<ContactRow> contactOf(PersonId id) const;
};

class Devices : Table
{
public:
    using Table::Table;
    Result<DeviceRow> bind(PersonId person, const PublicKey& key, const std::string& label,
                           Instant now);                                     ///< key-in-use
    [[nodiscard]] std::optional<DeviceRow> find(const PublicKey& key) const; ///< look at revokedAt
    [[nodiscard]] std::vector<DeviceRow> ofPerson(PersonId person) const;    ///< oldest first
    void seen(const PublicKey& key, Instant now);
    Result<void> revoke(const PublicKey& key, Instant now); ///< device-unknown
    Result<void> restore(const PublicKey& key);             ///< device-unknown
};

/// One-time links. The token leaves the relay once, inside the link; here lies its SHA-256.
class Links : Table
{
public:
    using Table::Table;
    static constexpr Millis kGoodFor = std::chrono::hours{24 * 7};
    /// `madeBy`: nothing for the operator. `forPerson`: enrols a device (and the role) for somebody already here.
    LinkToken make(GroupId group, Role role, std::optional<PersonId> madeBy, Instant now,
                   std::optional<PersonId> forPerson = {}, Millis goodFor = kGoodFor);
    /// One act: the link is used up, the person is there (new unless the link names one), has the role, and the device
    /// is bound. The same device once more: the same person, nothing is done. link-unknown, link-used, link-expired,
    /// key-in-use, person-unknown (removed meanwhile).
    Result<PersonRow> redeem(const LinkToken& token, const std::string& name, const PublicKey& key,
                             const std::string& label, Instant now);
};

/// Append-only: a trigger forbids changing a row, and deleting one other than with its person.
class Agreements : Table
{
public:
    using Table::Table;
    Result<void> add(const AgreementRow& row); ///< value-unknown
    /// The newest value, or the most private one when the person never answered.
    [[nodiscard]] std::string valueOf(PersonId person, AgreementKind kind) const;
    [[nodiscard]] std::vector<AgreementRow> current(PersonId person) const; ///< newest of each kind answered, by kind
    [[nodiscard]] std::vector<AgreementRow> history(PersonId person) const; ///< oldest first
};

class Classes : Table
{
public:
    using Table::Table;
    Result<ClassRow> open(GroupId group, PersonId leader, const std::string& title, const Hash& script,
                          Instant now);        ///< class-open (one at a time in a group), part-unknown
    Result<void> end(ClassId id, Instant now); ///< class-unknown; a second time changes nothing
    /// Corrected: these and no others, the script first (at least that one). class-unknown, part-unknown.
    Result<void> setParts(ClassId id, const std::vector<Hash>& parts);
    Result<void> setLevelsToDesk(ClassId id, bool on); ///< no-class: it is not open
    [[nodiscard]] std::optional<ClassRow> byId(ClassId id) const;
    [[nodiscard]] std::optional<ClassRow> openOf(GroupId group) const;
    [[nodiscard]] std::vector<ClassRow> ofGroup(GroupId group) const; ///< newest first

    /// Computes the address; there already: nothing more is stored.
    Hash putPart(const std::string& kind, std::span<const std::uint8_t> bytes, Instant now);
    [[nodiscard]] std::optional<PartRow> part(const Hash& hash) const;
    /// The class needs this part as long as it is kept itself (open() does it for the script, setParts() for all).
    Result<void> usePart(ClassId id, const Hash& hash); ///< part-unknown
    [[nodiscard]] std::vector<Hash> partsOf(ClassId id) const;

    Result<void> putPlace(const PlaceRow& place); ///< stale-revision: not above the latest; class-unknown
    [[nodiscard]] std::optional<PlaceRow> latestPlace(ClassId id) const;
    [[nodiscard]] std::vector<PlaceRow> places(ClassId id) const; ///< in order

    /// First arrival counts; coming back clears leftAt. Without a person each call is a row of its own.
    void arrived(const AttendanceRow& row);
    void left(ClassId id, PersonId person, Instant now);
    /// The agreement is withdrawn: that somebody came stays, who it was goes, from the file too before the
    /// acknowledgement.
    void eraseName(ClassId id, PersonId person);
    [[nodiscard]] std::vector<AttendanceRow> attendance(ClassId id) const; ///< by arrival
};

class Handouts : Table
{
public:
    using Table::Table;
    /// In place of the group's last one; gives the row with the class's title. class-unknown (none of this group),
    /// part-unknown, handout-unfit (no parts, or their sizes do not come to `bytes`).
    Result<HandoutRow> offer(const HandoutRow& row);
    [[nodiscard]] std::optional<HandoutRow> ofGroup(GroupId group) const;
    void drop(GroupId group); ///< its parts go with the next sweep
};

class Board : Table
{
public:
    using Table::Table;
    /// What was decided may be undone for so long.
    static constexpr Millis kUndoable = std::chrono::hours{1};
    /// A reply to one person is said again to whoever comes back within this time.
    static constexpr Millis kRepliesKept = std::chrono::hours{24};

    /// Takes group, classId, author, kind, state, text, picture with its size, at, due, to, answers; gives the row as
    /// stored.
    BoardRow add(const BoardRow& item);
    /// item-unknown. `by`: nothing when it goes up because its time has come.
    Result<BoardRow> decide(std::int64_t id, BoardState state, std::optional<PersonId> by, Instant now,
                            std::optional<Instant> due = {});
    [[nodiscard]] std::optional<BoardRow> byId(std::int64_t id) const;
    /// Everything shown, or taken back after it was shown, with a change above `change`, in the order of the changes.
    [[nodiscard]] std::vector<BoardRow> changesSince(GroupId group, std::int64_t change, int limit) const;
    [[nodiscard]] std::vector<BoardRow> newestShown(GroupId group, int limit) const; ///< oldest first
    [[nodiscard]] std::vector<BoardRow> newestGone(GroupId group, int limit) const;  ///< off the board, by change
    [[nodiscard]] std::vector<BoardRow> held(GroupId group) const;                   ///< oldest first
    /// What is to be read, is going up, is with the leader or a clinician, or was dealt with within kUndoable.
    [[nodiscard]] std::vector<BoardRow> onDesk(GroupId group, Instant now) const;    ///< oldest first
    [[nodiscard]] std::vector<RepliedRow> replies(GroupId group, Instant now) const; ///< of kRepliesKept, oldest first
    [[nodiscard]] std::int64_t lastChange() const;                                   ///< of the whole relay

    // Pictures (pictures.cpp): bytes that no item has any more go from the file, too, before the acknowledgement.
    /// The part, for add().
    Hash putPicture(const PictureRow& picture, Instant now);
    /// Another caption, and another picture if there is one. item-unknown
    Result<BoardRow> setPicture(std::int64_t id, const std::string& text, const std::optional<PictureRow>& picture,
                                Instant now);
    /// Bytes and caption. item-unknown
    Result<BoardRow> erasePicture(std::int64_t id);
    /// Of one person, those whose bytes are kept; oldest first.
    [[nodiscard]] std::vector<BoardRow> picturesOf(PersonId author) const;
    /// If `viewer` may see it: on this group's board or in its window, their own, any of the group's `atDesk`.
    [[nodiscard]] std::optional<Bytes> pictureFor(GroupId group, const Hash& picture, PersonId viewer,
                                                  bool atDesk) const;
    /// In the group's window: this item, or none.
    void setWindow(GroupId group, std::optional<std::int64_t> item);
    [[nodiscard]] std::optional<BoardRow> inWindow(GroupId group) const;
    /// What the sweep does: set aside longer than that can be undone, nobody will see it again. Gives how many.
    int forgetSetAside(Instant now);

    void rest(const RestRow& rest); ///< in place of the one there was
    void endRest(PersonId person);
    [[nodiscard]] std::vector<RestRow> rests(GroupId group, Instant now) const; ///< that last

private:
    /// Kept beside the table, so that a number is not used again after its item is gone.
    std::int64_t nextChange();
    void dropUnused(const std::optional<Hash>& picture);
};

class Calls : Table
{
public:
    using Table::Table;
    /// Takes group, classId, person, at.
    CallRow add(const CallRow& call);
    /// A call of another group is unknown here. call-unknown, call-taken, call-done
    Result<CallRow> take(GroupId group, std::int64_t id, PersonId by, Instant now);
    /// Whoever had it has it no more.
    void letGo(std::int64_t id, PersonId by);
    /// Likewise. call-unknown, call-done
    Result<CallRow> done(GroupId group, std::int64_t id, const std::string& outcome, Instant now);
    [[nodiscard]] std::vector<CallRow> notDone(GroupId group) const; ///< oldest first
    [[nodiscard]] std::size_t countOf(ClassId id) const;             ///< done or not
};

/// Lines that broke off, of people who may be rung then; and whom to ring when nobody is there to help.
class Lines : Table
{
public:
    using Table::Table;
    /// In class, and here (again). A look that is not dealt with stays.
    void watch(PersonId person, ClassId classId);
    void lost(PersonId person, Instant now);
    /// Watched or not before: the look is kept until forget().
    void seen(PersonId person, ClassId classId, PersonId by);
    void forget(PersonId person);
    /// The class is over: all but what somebody has in hand.
    void forgetUnseen(ClassId classId);
    [[nodiscard]] std::vector<WatchedLineRow> ofGroup(GroupId group) const;

    void setWhomToRing(GroupId group, const std::string& text, PersonId by, Instant now);
    [[nodiscard]] std::string whomToRing(GroupId group) const; ///< empty: never set
};

class TurnResults : Table
{
public:
    using Table::Table;
    void put(const TurnResultRow& row); ///< the same (person, class, turn) again replaces it
    [[nodiscard]] std::vector<TurnResultRow> ofPerson(PersonId person) const; ///< oldest first
    [[nodiscard]] std::vector<TurnResultRow> ofClass(ClassId id) const;
    void eraseOf(PersonId person); ///< the agreement is withdrawn: gone from the file before the acknowledgement
};

class Log : Table
{
public:
    using Table::Table;
    LogRow add(const LogRow& row);                                                 ///< gives the row with its id
    [[nodiscard]] std::vector<LogRow> ofGroup(GroupId group, Instant since) const; ///< oldest first
    [[nodiscard]] bool isUndone(std::int64_t id) const;
};

class Tables
{
public:
    explicit Tables(Statements& statements);

    Groups groups;
    People people;
    Devices devices;
    Links links;
    Agreements agreements;
    Classes classes;
    Handouts handouts;
    Board board;
    Calls calls;
    Lines lines;
    TurnResults results;
    Log log;

    /// Does `work` at most once for (person, request). Asked again with the same payload: the stored answer, without
    /// doing anything. Another payload under the same id: Error "conflict". An Error of `work` is passed on and not
    /// remembered. Answers are kept for kAnswersKept, far longer than any client goes on asking.
    Result<OnceAnswer> once(PersonId person, RequestId request, const Hash& payload, Instant now,
                            const std::function<Result<std::string>()>& work);
    /// What once() has stored, if it has.
    [[nodiscard]] std::optional<std::string> answerTo(PersonId person, RequestId request) const;
    static constexpr Millis kAnswersKept = std::chrono::hours{24 * 7};
    static constexpr Millis kRemovedKept = std::chrono::hours{24 * 30};   ///< then a removed person is erased
    static constexpr Millis kDeadLinksKept = std::chrono::hours{24 * 30}; ///< so that "expired" can be said

    [[nodiscard]] Result<HallState> loadHall(GroupId group, int boardLimit, Instant now) const; ///< group-unknown

    /// Deletes what is older than its group's retention, old answers, dead links, parts that nothing uses. Once a day.
    /// Gives the number of rows that went.
    std::int64_t sweep(Instant now);

private:
    Statements* m_statements;
};

/// The address of a part, and the payload hash for once().
Hash sha256(std::span<const std::uint8_t> bytes);
Hash sha256(std::string_view text);

} // namespace vh::store
