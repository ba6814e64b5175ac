#pragma once
// One group at run time: who is in, where the class is, who hears what. The one authority for the place. Rebuilt from
// the store (a HallImage) when the relay starts; never stored itself. What must last is acknowledged only once it is on
// disk; live things (readings, rosters, sound) are droppable. Thread: its loop, for everything but construction.
// Split by what it serves: hall.cpp (who is in), hall_parts.cpp (the class's parts, opening and correcting it),
// hall_class.cpp (leading), hall_people.cpp (each person's own matters), hall_voices.cpp (readings, results, what comes
// of them), hall_board.cpp and hall_shown.cpp (what people write), hall_pictures.cpp and hall_window.cpp (pictures that
// they send), hall_rests.cpp (whose writing rests), hall_door.cpp, hall_calls.cpp (calls for help, contacts),
// hall_lines.cpp (lines lost), hall_attendance.cpp, hall_sound.cpp (whose sound is carried), hall_handout.cpp (what is
// offered for printing).
#include "server/hall/carried_sound.h"
#include "server/hall/class_run.h"
#include "server/hall/coming_pictures.h"
#include "server/hall/desk_book.h"
#include "server/hall/hall_image.h"
#include "server/hall/member.h"
#include "server/hall/roster.h"
#include "server/hall/session.h"
#include "server/net/hall_log.h"
#include "server/store/store.h"

#include <deque>
#include <set>

namespace vh::photos
{
struct Remade;
}

namespace vh::hall
{

struct PictureWorks;

/// A leader may take back within this time that a new device was bound to somebody who had lost theirs.
inline constexpr Millis kBindingUndoable = std::chrono::hours{24 * 7};
inline constexpr std::string_view kBindingLogged = "device-bound-at-door";

struct HallSetup {
    net::Loop* loop = nullptr;
    store::Store* store = nullptr;
    const Clock* clock = nullptr;
    HallEpoch epoch;
    std::vector<std::string> keyWords; ///< of the relay's key; empty with a public certificate
    PictureWorks* pictures = nullptr;  ///< null: no pictures are taken
};

class Hall : public std::enable_shared_from_this<Hall>
{
public:
    Hall(HallSetup setup, HallImage image);
    /// On its loop, once, before anybody enters: the class that is open goes on, and the beat begins.
    void start();
    /// On its loop, when it is to go: it holds nothing of the loop any more.
    void stop();

    [[nodiscard]] net::Loop& loop() const { return *m_setup.loop; }
    [[nodiscard]] GroupId group() const { return m_group.id; }

    // --- coming and going -----------------------------------------------------------------------------------------
    /// The member that owns the key and has the role, or null.
    [[nodiscard]] Member* memberFor(const wire::Key& key, std::optional<Role> role);
    /// Somebody whom the store has just enrolled.
    Member& adopt(const store::PersonState& person);
    void admit(Session& session, Member& member, Role role);
    void knock(Session& session, const std::string& name, const std::string& device);
    void left(Session& session);
    void skipped(Session& session, net::Skipped skipped);

    // --- messages, already checked against the table ---------------------------------------------------------------
    void on(Session& session, wire::Agree& message);
    void on(Session& session, wire::Contact& message);
    void on(Session& session, wire::Today& message);
    void on(Session& session, wire::TurnDone& message);
    void on(Session& session, wire::SetBand& message);
    void on(Session& session, wire::PrivateWord& message);
    void on(Session& session, wire::Greet& message);
    void on(Session& session, wire::Invite& message);
    void on(Session& session, wire::SecondDevice& message);
    void on(Session& session, wire::DevicesAsk& message);
    void on(Session& session, wire::RevokeDevice& message);
    void on(Session& session, wire::UndoBinding& message);
    void reading(Session& session, std::span<const std::uint8_t> frame);

    void on(Session& session, wire::PartPut& message);
    void on(Session& session, wire::PartAsk& message);
    void on(Session& session, wire::OpenClass& message);
    void on(Session& session, wire::ReviseClass& message);
    void on(Session& session, wire::OfferHandout& message);
    void on(Session& session, wire::Lead& message);
    void on(Session& session, wire::Leading& message);
    void on(Session& session, wire::TakePlace& message);
    void on(Session& session, wire::Reassert& message);

    void on(Session& session, wire::Voice& message);
    void on(Session& session, wire::InviteToSpeak& message);
    void on(Session& session, wire::SpeakAnswer& message);
    void on(Session& session, wire::EndSpeaking& message);
    void sound(Session& session, std::span<const std::uint8_t> frame);

    void on(Session& session, wire::Write& message);
    void on(Session& session, wire::TakeBackOwn& message);
    void on(Session& session, wire::Decide& message);
    void on(Session& session, wire::TakeItem& message);
    void on(Session& session, wire::Reply& message);
    void on(Session& session, wire::Claim& message);
    void on(Session& session, wire::Notice& message);
    void on(Session& session, wire::SetRest& message);
    void on(Session& session, wire::OpenBoard& message);
    void on(Session& session, wire::LevelsToDesk& message);
    void on(Session& session, wire::ActsAsk& message);
    void on(Session& session, wire::PicturePiece& message);
    void on(Session& session, wire::PictureAsk& message);
    void on(Session& session, wire::EditPicture& message);
    void on(Session& session, wire::ShowPicture& message);
    void on(Session& session, wire::PeopleAsk& message);
    void on(Session& session, wire::HelpCall& message);
    void on(Session& session, wire::HelpTakeBack& message);
    void on(Session& session, wire::HelpTake& message);
    void on(Session& session, wire::HelpDone& message);
    void on(Session& session, wire::ContactAsk& message);
    void on(Session& session, wire::LineDone& message);
    void on(Session& session, wire::SetWhomToRing& message);
    void on(Session& session, wire::LetIn& message);
    void on(Session& session, wire::TurnAway& message);
    void on(Session& session, wire::AttendByHand& message);

private:
    struct Waiting {
        wire::Waiting about;
        wire::Key key{};
        Session* session = nullptr;
        std::string address; ///< as counted
    };
    /// A move that was made: its answer, should it be asked for again.
    struct Led {
        PersonId who;
        store::Hash payload{};
        wire::Ack ack;
    };

    /// A private word that was said. Of what it said only a hash is kept.
    struct Said {
        RequestId id;
        store::Hash payload{};
    };

    /// Does `work` (Result<wire::Ack>(Tables&), on the store's thread) at most once for this request; once it is on
    /// disk, `then()` runs here (not when it had been done before), and the acknowledgement leaves.
    template <class Message, class Work, class Then>
    void durably(Session& session, const Message& message, Work work, Then then);
    /// Like it, for what may be done twice without harm, or whose answer must not be kept.
    template <class Work, class Then>
    void onDisk(Session& session, const RequestId& id, Work work, Then then);
    [[nodiscard]] store::Poster poster() const;
    [[nodiscard]] Instant now() const { return m_setup.clock->now(); }

    template <class Message>
    void tellAll(Message message, net::FrameKind kind = net::FrameKind::lasting);
    template <class Message>
    void tell(RoleSet roles, const Message& message, net::Weight weight = net::Weight::ordinary);
    template <class Message, class Fits>
    void tellThose(Fits fits, const Message& message, net::Weight weight = net::Weight::ordinary);
    [[nodiscard]] wire::SeatName seatName(const Member& member, Role viewer) const;
    [[nodiscard]] wire::Here hereNow() const;

    [[nodiscard]] wire::Welcome welcomeFor(const Session& session) const;
    [[nodiscard]] wire::PlaceNow placeNow() const;
    /// Somebody who speaks in class; null for an empty seat and for who only leads or helps.
    [[nodiscard]] Member* memberAt(std::uint16_t seat);
    [[nodiscard]] const Member* memberById(PersonId id) const;
    [[nodiscard]] std::string nameOfPerson(PersonId id) const;
    void tellDesk(Session& session);
    void tellSeats();
    void tellHere();
    void tellLease();
    [[nodiscard]] wire::Door doorNow() const;
    void tellDoor();
    void touch(const Member& member);
    void revoked(Member& member, const wire::Key& key);

    void classChanged();
    void classOpened(wire::ClassOpen about, std::shared_ptr<const ClassScript> script, const ClassState& state);
    void classEnded();
    void revise(Session& session, const wire::ReviseClass& message, const std::shared_ptr<const ClassScript>& script);
    void tellParts();
    template <class Message, class Move>
    void move(Session& session, const Message& message, Move change);
    void ledAgain(Session& session, const wire::Ack& ack);
    void keepPlace(const std::function<void(bool)>& kept);
    void keepEnd(ClassId id, Instant at);
    void cameIn(Member& member);
    void judgeTurn(Member& member, const TurnResult& result, const ClassRun::Turn& turn);
    /// Once a second: whom the leader may want to address.
    void tellWorth();
    void sendWorth(RoleSet roles, Session* only = nullptr);
    /// Results that came after the end of the class are part of how it went.
    void tellOver();

    [[nodiscard]] bool leads(const Session& session) const;
    void setVoice(Session* from, wire::VoiceState state, std::uint32_t stream);
    [[nodiscard]] wire::VoiceNow voiceNow() const;
    void endInvitation(std::optional<wire::InviteEnd> why);
    [[nodiscard]] wire::Speaking speakingFor(Role viewer) const;
    void tellSpeaking();
    void soundFollowsClass();
    void soundLeaves(Session& session);
    void nameSeenChanged(const Member& member);
    void soundIn(wire::Welcome& welcome, const Session& session) const;
    void done(Session& session, const RequestId& id);

    /// A private answer, and what it answers.
    struct Replied {
        store::BoardRow reply;
        std::string about;
    };
    static constexpr std::size_t kRepliesKept = 500;
    [[nodiscard]] store::BoardRow boardRow(PersonId author, store::BoardKind kind, std::string text) const;
    void itemChanged(const store::BoardRow& row, bool wasShown);
    [[nodiscard]] wire::DeskItem deskItem(const store::BoardRow& row) const;
    [[nodiscard]] wire::BoardItem boardItem(const store::BoardRow& row) const;
    void offBoard(const store::BoardRow& row);
    void replied(const store::BoardRow& reply, const std::string& about);
    [[nodiscard]] wire::Answer answerOf(const Replied& replied) const;
    void boardIn(wire::Welcome& welcome, const Session& session) const;

    struct SentPicture;
    /// Somebody who waits for a picture's bytes.
    struct Asking {
        std::weak_ptr<Session> line;
        std::shared_ptr<void> underWay;
    };
    [[nodiscard]] std::optional<Error> whyNoPicture(Role role, const Member& member) const;
    void lookForPicture(Session& session, const RequestId& piece, const RequestId& picture,
                        const std::optional<Error>& why);
    void makePicture(Session& session, const RequestId& piece, ComingPictures::Whole whole);
    void keepPicture(const std::shared_ptr<SentPicture>& sent, const photos::Remade& remade);
    void keepEdit(Session& session, const wire::EditPicture& message, std::optional<store::PictureRow> picture);
    void pictureChanged(const store::BoardRow& row);
    [[nodiscard]] static std::optional<wire::PictureAbout> pictureOf(const store::BoardRow& row);
    [[nodiscard]] bool maySee(const wire::Hash& picture, PersonId viewer, bool atDesk) const;
    template <class Find, class Then>
    void fetch(Find find, const wire::Hash& hash, Then then);
    void answer(const Asking& asking, const Result<net::FrameBytes>& frame) const;
    [[nodiscard]] wire::PictureNow pictureNow() const;
    void showInWindow(const store::BoardRow& row);
    void endWindow();
    void keepOutOfWindow(std::int64_t item);

    /// How somebody's own lines stand that are not on the board: all of them, and one that has changed.
    void tellOwn(Session& session) const;
    void tellAuthor(const store::BoardRow& row) const;
    /// Sets the timer for what is let through next; goUp() also runs with the beat.
    void waitToGoUp();
    void goUp();
    /// Of this person, while it lasts.
    [[nodiscard]] std::optional<store::RestRow> restOf(const Member& member) const;
    [[nodiscard]] bool isOut(const Member& member) const;
    void rests(const store::RestRow& row, wire::Rest rest);
    static void turnOut(Session& session, const std::string& reason);
    void tellWriting(const Member& member) const;
    void classRestsEnd();
    [[nodiscard]] wire::DeskNow deskNow() const;
    void letDeskSeeLevels(bool see);
    [[nodiscard]] std::string nameLike(const std::string& name) const;
    [[nodiscard]] wire::Call callOf(const store::CallRow& row) const;
    void callChanged(const store::CallRow& row);
    /// Helpers and leaders; a stand-in while leading, or while none of those is here (as of the last beat).
    [[nodiscard]] bool seesCalls(const Session& session) const;
    void tellStandIns();
    /// All that is not done, whole; the contact again to whoever has one in hand.
    void callsTo(Session& session);
    void showContact(Session& session, const Member& member, wire::Because because);
    [[nodiscard]] std::optional<Error> refusesLook(PersonId person, wire::Because because) const;
    /// Whoever took a call and is away too long has it no more.
    void letGoOfCalls();

    /// A line of this class that broke off.
    struct Lost {
        Instant since{};
        std::optional<PersonId> seenBy; ///< who has it in hand
        bool back = false;              ///< here again; kept while somebody has it in hand
    };
    void linesFrom(const HallImage& image);
    /// Somebody in class who may be rung when the line breaks off: so that a restart does not forget it.
    void watchLine(const Member& member);
    void lineLeaves(const Session& session);
    void lineIsBack(const Member& member);
    void mayRingChanged(const Member& member);
    void linesEnd();
    [[nodiscard]] bool isLost(const Lost& lost) const;
    [[nodiscard]] wire::LostLines lostLines() const;
    void tellLostLines();
    void keepLine(std::function<void(store::Tables&)> work);
    void shown(const store::BoardRow& row);
    void letIn(const store::PersonState& person, const wire::Key& key);
    std::map<std::uint64_t, Waiting>::iterator atDoor(const wire::Key& key);
    /// With `over`, how the class went comes after it, to leaders.
    void sendAttendance(std::optional<wire::Summary> over = {});

    HallSetup m_setup;
    HallImage m_image; ///< from construction to start()
    store::GroupRow m_group;
    std::map<PersonId, std::unique_ptr<Member>> m_members;
    std::map<wire::Key, Member*> m_byKey;
    std::vector<Member*> m_bySeat;
    std::set<Session*> m_sessions; ///< all that are in
    std::map<std::uint64_t, Waiting> m_door;
    std::uint64_t m_nextDoor = 1;
    bool m_doorChanged = false;

    net::HallLog m_log;
    std::uint64_t m_seq = 0; ///< of lasting messages
    ClassRun m_run;
    std::vector<wire::Hash> m_partsTold; ///< of the open class: as everybody has heard of them
    std::vector<wire::Hash> m_partsKept; ///< and as they are on disk
    CarriedSound m_sound;
    std::function<void(bool)> m_whenKept; ///< of the move under way: called when its place is on disk
    /// The last moves and their answers, for those who ask again because their line broke.
    std::deque<Led> m_led;
    std::int64_t m_placesKept = 0; ///< number of the last place given to the store
    Roster m_roster;
    bool m_levelsToDesk = false;            ///< of the class that is open
    std::set<std::uint16_t> m_changedSeats; ///< names or presence, for `seats`
    bool m_hereChanged = false;
    int m_quarter = 0; ///< quarters of a second, for what goes out once a second
    net::Loop::Timer m_beat;
    net::Loop::Timer m_endRetry; ///< while the end of the last class could not be stored

    std::map<wire::Hash, net::FrameBytes> m_parts; ///< of the open class, framed once
    std::optional<wire::HandoutNow> m_handout;     ///< of the class that is open, or was the last
    std::deque<store::BoardRow> m_board;           ///< shown, oldest first
    std::deque<store::BoardRow> m_gone;            ///< taken off it lately, oldest first
    std::deque<Replied> m_replies;
    DeskBook m_desk;
    net::Loop::Timer m_goUp;
    ComingPictures m_coming;
    std::deque<std::pair<wire::Hash, net::FrameBytes>> m_frames; ///< of pictures lately asked for
    std::map<wire::Hash, std::vector<Asking>> m_asking;          ///< who waits for the store to give it
    std::optional<store::BoardRow> m_window;                     ///< the picture that the leader shows to all
    unsigned m_windowEnds = 0;                                   ///< how often that was over
    bool m_moveEndsWindow = false;                               ///< a leader's move is being made
    std::map<std::int64_t, store::CallRow> m_calls;              ///< not done
    std::set<const Session*> m_standInsSee;                      ///< calls, as of the last beat
    std::map<std::int64_t, Instant> m_takerAway;                 ///< calls whose taker is not here, since when
    std::map<PersonId, Lost> m_lost;
    std::string m_lostTold; ///< as the desk has heard of it last
    std::string m_whomToRing;
    wire::Summary m_summary;
    std::optional<wire::Summary> m_over; ///< of the last class, until the next one opens
    bool m_overChanged = false;
    Worth m_worth;
    bool m_storyChanged = false; ///< since worth was last looked for
    std::deque<Said> m_words;    ///< the last private words, for those who ask again
    std::size_t m_nameless = 0;  ///< counted before a restart: the next so many without a name have come already
};

} // namespace vh::hall
