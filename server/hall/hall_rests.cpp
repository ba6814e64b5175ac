// Whose writing rests and who is out of the class; whether the board is open and helpers see levels; what was done at
// the desk.
#include "server/hall/hall_store.h"
#include "server/hall/shown_text.h"

#include <algorithm>

namespace vh::hall
{

using store::RestKind;

namespace
{

constexpr std::size_t kActsShown = 500;
constexpr Millis kLately = std::chrono::hours{24};
constexpr Millis kAfterClass = std::chrono::hours{1};

wire::Rest onWire(RestKind kind)
{
    return static_cast<wire::Rest>(static_cast<unsigned>(kind) + 1);
}

const char* nameOf(wire::Rest rest)
{
    switch (rest) {
    case wire::Rest::none:
        return "rest-ended";
    case wire::Rest::tenMinutes:
        return "quiet-for-a-while";
    case wire::Rest::theClass:
        return "quiet-for-the-class";
    case wire::Rest::out:
        return "out-of-the-class";
    }
    return "";
}

/// What the desk did, among all that the log has.
bool isAct(const std::string& what)
{
    return what.starts_with("line-") || what.starts_with("answered") || what.starts_with("quiet-") ||
           what == "own-taken-back" || what == "rest-ended" || what == "out-of-the-class" || what == "board-open" ||
           what == "board-held" || what.starts_with("call-") || what.starts_with("picture-") ||
           what.starts_with("contact-") || what.starts_with("levels-");
}

/// Of a line, which one it was: the words, while they are kept.
bool isAboutItem(const std::string& what)
{
    return what.starts_with("line-") || what.starts_with("picture-") || what.starts_with("answered") ||
           what == "own-taken-back";
}

} // namespace

std::optional<store::RestRow> Hall::restOf(const Member& member) const
{
    if (!member.rest || member.rest->until <= now())
        return std::nullopt;
    if (member.rest->classId && (!m_run.isOpen() || m_run.about().classId != *member.rest->classId))
        return std::nullopt;
    return member.rest;
}

bool Hall::isOut(const Member& member) const
{
    const auto rest = restOf(member);
    return rest && rest->kind == RestKind::outOfTheClass;
}

void Hall::on(Session& session, wire::SetRest& message)
{
    const Member* known = memberById(message.person);
    if (!known)
        return session.refuse(message.id, {"person-unknown", "There is nobody of that name here.", "person"});
    if (known->has(Role::leader) || known->has(Role::moderator))
        return session.refuse(message.id, {"not-them", "Those who lead or help cannot be asked to rest.", "person"});
    const auto reason = shownText(message.reason, wire::kReasonLength);
    if (message.rest == wire::Rest::out && !reason)
        return session.refuse(message.id, {"reason-empty", "Please write what this person will be told.", "reason"});
    store::RestRow row;
    row.person = known->id;
    row.reason = reason.value_or("");
    row.until = now() + wire::kRestsAtMost;
    if (message.rest == wire::Rest::tenMinutes)
        row.until = now() + wire::kQuietFor;
    else if (m_run.isOpen())
        row.classId = m_run.about().classId;
    if (message.rest != wire::Rest::none)
        row.kind = static_cast<RestKind>(static_cast<unsigned>(message.rest) - 1);
    durably(
        session, message,
        [row, rest = message.rest, group = m_group.id, by = session.member()->id,
         at = now()](store::Tables& tables) -> Result<wire::Ack> {
            if (rest == wire::Rest::none)
                tables.board.endRest(row.person);
            else
                tables.board.rest(row);
            tables.log.add({0, group, by, nameOf(rest), row.person, row.reason, at, {}});
            return wire::Ack{};
        },
        [self = shared_from_this(), row, rest = message.rest] { self->rests(row, rest); });
}

void Hall::rests(const store::RestRow& row, wire::Rest rest)
{
    const auto found = m_members.find(row.person);
    if (found == m_members.end())
        return; // left the group meanwhile
    Member& member = *found->second;
    member.rest = rest == wire::Rest::none ? std::nullopt : std::optional(row);
    tell(kDesk, deskNow());
    if (!member.session)
        return;
    if (rest == wire::Rest::out)
        return turnOut(*member.session, row.reason);
    tellWriting(member);
}

/// The whole reason first: a close has room for little more than a hundred letters.
void Hall::turnOut(Session& session, const std::string& reason)
{
    session.refuse({}, {"out", reason, {}});
    session.closeAfterwards(kCloseTurnedAway, reason);
}

void Hall::tellWriting(const Member& member) const
{
    const auto rest = restOf(member);
    if (member.session)
        member.session->send(wire::MayWrite{rest ? std::optional(rest->until) : std::nullopt}, m_log.end());
}

/// Rests for the class are over with it.
void Hall::classRestsEnd()
{
    bool any = false;
    for (const auto& [id, member] : m_members)
        if (member->rest && member->rest->classId) {
            any = true;
            tellWriting(*member);
        }
    if (any)
        tell(kDesk, deskNow());
}

wire::DeskNow Hall::deskNow() const
{
    wire::DeskNow desk;
    desk.boardOpen = m_group.boardOpen;
    desk.levels = m_levelsToDesk;
    for (const auto& [id, member] : m_members)
        if (const auto rest = restOf(*member))
            desk.resting.push_back({id, member->name, onWire(rest->kind), rest->until});
    return desk;
}

void Hall::on(Session& session, wire::OpenBoard& message)
{
    durably(
        session, message,
        [group = m_group.id, open = message.open, by = session.member()->id,
         at = now()](store::Tables& tables) -> Result<wire::Ack> {
            if (auto set = tables.groups.setBoardOpen(group, open); !set)
                return tl::unexpected<Error>(set.error());
            tables.log.add({0, group, by, open ? "board-open" : "board-held", {}, {}, at, {}});
            return wire::Ack{};
        },
        [self = shared_from_this(), open = message.open] {
            self->m_group.boardOpen = open;
            self->tell(kDesk, self->deskNow());
        });
}

void Hall::on(Session& session, wire::LevelsToDesk& message)
{
    if (!m_run.isOpen())
        return session.refuse(message.id, noClass());
    durably(
        session, message,
        [group = m_group.id, classId = m_run.about().classId, on = message.on, by = session.member()->id,
         at = now()](store::Tables& tables) -> Result<wire::Ack> {
            if (auto set = tables.classes.setLevelsToDesk(classId, on); !set)
                return tl::unexpected<Error>(set.error());
            tables.log.add({0, group, by, on ? "levels-shown" : "levels-hidden", {}, {}, at, {}});
            return wire::Ack{};
        },
        [self = shared_from_this(), classId = m_run.about().classId, on = message.on] {
            if (self->m_run.isOpen() && self->m_run.about().classId == classId)
                self->letDeskSeeLevels(on);
        });
}

void Hall::letDeskSeeLevels(bool see)
{
    m_roster.letHelpersSee(see);
    if (std::exchange(m_levelsToDesk, see) != see)
        tell(kDesk, deskNow());
}

void Hall::on(Session& session, wire::ActsAsk& message)
{
    struct Found {
        store::LogRow row;
        std::string about;
    };
    auto work = [group = m_group.id, of = message.classId,
                 since = now() - kLately](store::Tables& tables) mutable -> Result<std::vector<Found>> {
        std::optional<Instant> until;
        if (of) {
            const auto row = tables.classes.byId(*of);
            if (!row || row->group != group)
                return fail("class-unknown", "This class is not known here any more.", "class");
            since = row->startedAt;
            if (row->endedAt)
                until = *row->endedAt + kAfterClass;
        }
        std::vector<Found> acts;
        for (store::LogRow& row : tables.log.ofGroup(group, since)) {
            if (!isAct(row.what) || (until && row.at > *until))
                continue;
            std::string about = row.detail;
            if (isAboutItem(row.what)) {
                const auto item = tables.board.byId(std::atoll(row.detail.c_str()));
                about = item ? item->text : std::string();
            }
            acts.push_back({std::move(row), std::move(about)});
        }
        if (acts.size() > kActsShown)
            acts.erase(acts.begin(), acts.end() - kActsShown);
        return acts;
    };
    auto done = [self = shared_from_this(), weak = session.weak_from_this()](const Result<std::vector<Found>>& found) {
        const auto line = weak.lock();
        if (!line)
            return;
        if (!found)
            return line->refuse({}, found.error());
        wire::Acts acts;
        for (const Found& each : *found)
            acts.acts.push_back({each.row.at, each.row.who ? self->nameOfPerson(*each.row.who) : std::string(),
                                 each.row.what, each.row.target ? self->nameOfPerson(*each.row.target) : std::string(),
                                 each.about});
        line->send(acts, self->m_log.end(), net::Weight::bulk);
    };
    if (m_setup.store->submit(std::move(work), std::move(done), poster()) != store::Submitted::accepted)
        session.refuse({}, busy());
}

} // namespace vh::hall
