// What people write, and what becomes of it.
#include "server/hall/desk_item.h"
#include "server/hall/hall_store.h"
#include "server/hall/shown_text.h"

#include <algorithm>

namespace vh::hall
{

using store::BoardKind;
using store::BoardState;

namespace
{

/// Lines that wait to be read: of one person, and of all.
constexpr std::size_t kHeldOfOne = 20;
constexpr std::size_t kHeldOfAll = 500;

BoardState stateAfter(wire::Decision decision)
{
    switch (decision) {
    case wire::Decision::show:
        return BoardState::goingUp;
    case wire::Decision::setAside:
        return BoardState::setAside;
    case wire::Decision::forLeader:
        return BoardState::withLeader;
    case wire::Decision::clinician:
        return BoardState::withClinician;
    case wire::Decision::hold:
        return BoardState::held;
    case wire::Decision::forWindow:
        return BoardState::forWindow;
    }
    return BoardState::held;
}

/// For the log.
const char* nameOf(wire::Decision decision)
{
    switch (decision) {
    case wire::Decision::show:
        return "let-through";
    case wire::Decision::setAside:
        return "set-aside";
    case wire::Decision::forLeader:
        return "for-leader";
    case wire::Decision::clinician:
        return "for-clinician";
    case wire::Decision::hold:
        return "taken-back";
    case wire::Decision::forWindow:
        return "for-window";
    }
    return "";
}

std::size_t questionsOf(const store::Tables& tables, GroupId group, Instant now)
{
    const auto rows = tables.board.onDesk(group, now);
    return static_cast<std::size_t>(std::count_if(
        rows.begin(), rows.end(), [](const store::BoardRow& row) { return row.state == BoardState::withLeader; }));
}

} // namespace

// --- writing -------------------------------------------------------------------------------------------------------

store::BoardRow Hall::boardRow(PersonId author, BoardKind kind, std::string text) const
{
    store::BoardRow row;
    row.group = m_group.id;
    if (m_run.isOpen())
        row.classId = m_run.about().classId;
    row.author = author;
    row.kind = kind;
    row.text = std::move(text);
    row.at = now();
    return row;
}

void Hall::on(Session& session, wire::Write& message)
{
    const auto text = shownText(message.text, wire::kChatLength, LineBreaks::keep);
    if (!text)
        return session.refuse(message.id, text.error());
    if (restOf(*session.member()))
        return session.refuse(message.id, {"quiet", "The helper has asked for a pause in writing.", {}});
    store::BoardRow row = boardRow(session.member()->id, BoardKind::chat, *text);
    row.state = m_group.boardOpen ? BoardState::shown : BoardState::held;
    auto added = std::make_shared<store::BoardRow>();
    durably(
        session, message,
        [row, added](store::Tables& tables) -> Result<wire::Ack> {
            const auto held = tables.board.held(row.group);
            const auto own = std::count_if(held.begin(), held.end(),
                                           [&](const store::BoardRow& each) { return each.author == row.author; });
            if (held.size() >= kHeldOfAll || static_cast<std::size_t>(own) >= kHeldOfOne)
                return fail("many-held", "Your earlier lines are still to be read. Please wait a moment.");
            *added = tables.board.add(row);
            wire::Ack ack;
            ack.item = static_cast<std::uint64_t>(added->id);
            return ack;
        },
        [self = shared_from_this(), added] { self->itemChanged(*added, false); });
}

void Hall::on(Session& session, wire::TakeBackOwn& message)
{
    auto gone = std::make_shared<store::BoardRow>();
    auto wasShown = std::make_shared<bool>(false);
    durably(
        session, message,
        [item = static_cast<std::int64_t>(message.item), group = m_group.id, author = session.member()->id, gone,
         wasShown, at = now()](store::Tables& tables) -> Result<wire::Ack> {
            const auto before = tables.board.byId(item);
            if (!isThere(before, group) || before->author != author || before->state == BoardState::setAside)
                return tl::unexpected<Error>(itemUnknown());
            *wasShown = before->state == BoardState::shown;
            auto row = takeBack(tables, *before, at);
            if (!row)
                return tl::unexpected<Error>(row.error());
            *gone = *row;
            return wire::Ack{};
        },
        [self = shared_from_this(), gone, wasShown] { self->itemChanged(*gone, *wasShown); });
}

void Hall::on(Session& session, wire::Notice& message)
{
    const auto text = shownText(message.text, wire::kNoticeLength, LineBreaks::keep);
    if (!text)
        return session.refuse(message.id, text.error());
    store::BoardRow row = boardRow(session.member()->id, BoardKind::notice, *text);
    row.state = BoardState::shown;
    auto added = std::make_shared<store::BoardRow>();
    durably(
        session, message,
        [row, added](store::Tables& tables) -> Result<wire::Ack> {
            *added = tables.board.add(row);
            wire::Ack ack;
            ack.item = static_cast<std::uint64_t>(added->id);
            return ack;
        },
        [self = shared_from_this(), added] { self->shown(*added); });
}

// --- what becomes of it --------------------------------------------------------------------------------------------

void Hall::on(Session& session, wire::Decide& message)
{
    const auto item = static_cast<std::int64_t>(message.item);
    const auto change = static_cast<std::int64_t>(message.change);
    auto decided = std::make_shared<store::BoardRow>();
    auto wasShown = std::make_shared<bool>(false);
    durably(
        session, message,
        [item, change, decision = message.decision, by = session.member()->id, group = m_group.id, decided, wasShown,
         at = now()](store::Tables& tables) -> Result<wire::Ack> {
            const auto before = seenAt(tables, group, item, change);
            if (!before)
                return tl::unexpected<Error>(before.error());
            const BoardState after = stateAfter(decision);
            if (after == BoardState::forWindow && before->kind != BoardKind::picture)
                return fail("decision-impossible", "Only a picture can be shown in the group's window.", "decision");
            *wasShown = before->state == BoardState::shown;
            if (after == before->state || (after == BoardState::goingUp && *wasShown))
                return fail("decision-impossible", "It is so already.", "decision");
            if (after == BoardState::withLeader && questionsOf(tables, group, at) >= wire::kQuestionsAtMost)
                return fail("many-questions",
                            "Three questions are on the leader's screen. Please wait until she has taken one.");
            const auto due = after == BoardState::goingUp ? std::optional(at + wire::kGoesUpAfter) : std::nullopt;
            auto row = tables.board.decide(item, after, by, at, due);
            if (!row)
                return tl::unexpected<Error>(row.error());
            tables.log.add({0, group, by, actOn(*row, nameOf(decision)), row->author, std::to_string(item), at, {}});
            *decided = *row;
            return wire::Ack{};
        },
        [self = shared_from_this(), decided, wasShown] { self->itemChanged(*decided, *wasShown); });
}

void Hall::on(Session& session, wire::TakeItem& message)
{
    auto taken = std::make_shared<store::BoardRow>();
    durably(
        session, message,
        [item = static_cast<std::int64_t>(message.item), by = session.member()->id, group = m_group.id, taken,
         at = now()](store::Tables& tables) -> Result<wire::Ack> {
            const auto before = tables.board.byId(item);
            if (!isThere(before, group) || !isWithLeader(before->state))
                return tl::unexpected<Error>(itemUnknown());
            auto row = tables.board.decide(item, BoardState::seenTo, by, at);
            if (!row)
                return tl::unexpected<Error>(row.error());
            tables.log.add({0, group, by, actOn(*row, "taken"), row->author, std::to_string(item), at, {}});
            *taken = *row;
            return wire::Ack{};
        },
        [self = shared_from_this(), taken] { self->itemChanged(*taken, false); });
}

void Hall::on(Session& session, wire::Reply& message)
{
    const auto text = shownText(message.text, wire::kChatLength, LineBreaks::keep);
    if (!text)
        return session.refuse(message.id, text.error());
    store::BoardRow reply = boardRow(session.member()->id, message.toAll ? BoardKind::notice : BoardKind::reply, *text);
    reply.state = BoardState::shown;
    reply.answers = static_cast<std::int64_t>(message.item);
    auto said = std::make_shared<store::BoardRow>();
    auto about = std::make_shared<store::BoardRow>();
    durably(
        session, message,
        [reply, said, about](store::Tables& tables) mutable -> Result<wire::Ack> {
            const auto before = tables.board.byId(*reply.answers);
            if (!isThere(before, reply.group) || !before->author)
                return tl::unexpected<Error>(itemUnknown());
            *about = *before;
            const bool onBoard = before->state == BoardState::shown || before->state == BoardState::goingUp;
            if (!onBoard && before->state != BoardState::seenTo) {
                auto row = tables.board.decide(before->id, BoardState::seenTo, reply.author, reply.at);
                if (!row)
                    return tl::unexpected<Error>(row.error());
                *about = *row;
            }
            if (reply.kind == BoardKind::reply)
                reply.to = before->author;
            *said = tables.board.add(reply);
            tables.log.add({0,
                            reply.group,
                            reply.author,
                            reply.to ? "answered" : "answered-to-all",
                            before->author,
                            std::to_string(said->id),
                            reply.at,
                            {}});
            wire::Ack ack;
            ack.item = static_cast<std::uint64_t>(said->id);
            return ack;
        },
        [self = shared_from_this(), said, about] {
            if (about->state == BoardState::seenTo)
                self->itemChanged(*about, false);
            if (said->to)
                self->replied(*said, about->text);
            else
                self->shown(*said);
        });
}

void Hall::on(Session& session, wire::Claim& message)
{
    const auto item = static_cast<std::int64_t>(message.item);
    const bool changed =
        message.on ? m_desk.claim(item, &session, session.member()->name) : m_desk.release(item, &session);
    if (changed)
        tell(kDesk, wire::Claimed{message.item, message.on ? session.member()->name : std::string()});
}

} // namespace vh::hall
