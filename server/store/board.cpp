// The board, and calls for help: what waits for a helper's decision.
#include "server/store/statements.h"
#include "server/store/tables.h"

#include <algorithm>

namespace vh::store
{

namespace
{

BoardRow readItem(const Query& row)
{
    BoardRow item;
    item.id = row.number(0);
    item.change = row.number(1);
    item.group = row.id<GroupId>(2);
    item.classId = row.maybeId<ClassId>(3);
    item.author = row.maybeId<PersonId>(4);
    item.kind = row.value<BoardKind>(5);
    item.state = row.value<BoardState>(6);
    item.text = row.text(7);
    item.picture = row.maybeHash(8);
    item.at = row.instant(9);
    item.decidedBy = row.maybeId<PersonId>(10);
    item.decidedAt = row.maybeInstant(11);
    item.wasShown = row.number(12) != 0;
    item.due = row.maybeInstant(13);
    item.to = row.maybeId<PersonId>(14);
    item.answers = row.maybeNumber(15);
    item.width = static_cast<int>(row.number(16));
    item.height = static_cast<int>(row.number(17));
    return item;
}

CallRow readCall(const Query& row)
{
    CallRow call;
    call.id = row.number(0);
    call.group = row.id<GroupId>(1);
    call.classId = row.maybeId<ClassId>(2);
    call.person = row.id<PersonId>(3);
    call.at = row.instant(4);
    call.takenBy = row.maybeId<PersonId>(5);
    call.takenAt = row.maybeInstant(6);
    call.doneAt = row.maybeInstant(7);
    call.outcome = row.text(8);
    return call;
}

std::optional<CallRow> callById(Statements& statements, std::int64_t id)
{
    return statements.row(readCall, "SELECT * FROM calls WHERE id = ?", id);
}

tl::unexpected<Error> callUnknown()
{
    return fail("call-unknown", "There is no such call for help.");
}

tl::unexpected<Error> callDone()
{
    return fail("call-done", "This call has been seen to already.");
}

} // namespace

std::int64_t Board::nextChange()
{
    auto query = m_statements->query("UPDATE counters SET value = value + 1 WHERE name = 'board' RETURNING value");
    query.step();
    return query.number(0);
}

BoardRow Board::add(const BoardRow& item)
{
    BoardRow stored = item;
    stored.change = nextChange();
    stored.wasShown = item.state == BoardState::shown;
    stored.decidedBy.reset();
    stored.decidedAt.reset();
    m_statements->exec("INSERT INTO board (change, group_id, class, author, kind, state, text, picture, at, was_shown,"
                       " due, to_person, answers, width, height)"
                       " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
                       stored.change, item.group, item.classId, item.author, item.kind, item.state, item.text,
                       item.picture, item.at, stored.wasShown ? 1 : 0, item.due, item.to, item.answers, item.width,
                       item.height);
    stored.id = m_statements->lastId();
    return stored;
}

Result<BoardRow> Board::decide(std::int64_t id, BoardState state, std::optional<PersonId> by, Instant now,
                               std::optional<Instant> due)
{
    const std::int64_t change = nextChange();
    m_statements->exec("UPDATE board SET state = ?1, change = ?2, decided_by = coalesce(?3, decided_by),"
                       " decided_at = ?4, was_shown = max(was_shown, ?1 = 1), due = ?6 WHERE id = ?5",
                       state, change, by, now, id, due);
    const auto item = byId(id);
    if (!item)
        return fail("item-unknown", "There is no such item on the board.");
    return *item;
}

std::optional<BoardRow> Board::byId(std::int64_t id) const
{
    return m_statements->row(readItem, "SELECT * FROM board WHERE id = ?", id);
}

std::vector<BoardRow> Board::changesSince(GroupId group, std::int64_t change, int limit) const
{
    return m_statements->rows(
        readItem, "SELECT * FROM board WHERE group_id = ? AND was_shown = 1 AND change > ? ORDER BY change LIMIT ?",
        group, change, limit);
}

std::vector<BoardRow> Board::newestShown(GroupId group, int limit) const
{
    auto items = m_statements->rows(
        readItem, "SELECT * FROM board WHERE group_id = ? AND state = 1 ORDER BY change DESC LIMIT ?", group, limit);
    std::reverse(items.begin(), items.end());
    return items;
}

std::vector<BoardRow> Board::held(GroupId group) const
{
    return m_statements->rows(readItem, "SELECT * FROM board WHERE group_id = ? AND state = 0 ORDER BY id", group);
}

std::vector<BoardRow> Board::onDesk(GroupId group, Instant now) const
{
    return m_statements->rows(readItem,
                              "SELECT * FROM board WHERE group_id = ? AND kind IN (0, 2) AND"
                              " (state IN (0, 3, 4, 5, 7) OR (state IN (2, 6) AND decided_at > ?)) ORDER BY id",
                              group, now - kUndoable);
}

std::vector<RepliedRow> Board::replies(GroupId group, Instant now) const
{
    const auto replies = m_statements->rows(readItem,
                                            "SELECT * FROM board WHERE group_id = ? AND kind = 3 AND"
                                            " to_person IS NOT NULL AND at > ? ORDER BY id",
                                            group, now - kRepliesKept);
    std::vector<RepliedRow> all;
    for (const BoardRow& reply : replies) {
        const auto about = byId(reply.answers.value_or(0));
        all.push_back({reply, about ? about->text : std::string()});
    }
    return all;
}

std::vector<BoardRow> Board::newestGone(GroupId group, int limit) const
{
    auto items = m_statements->rows(
        readItem,
        "SELECT * FROM board WHERE group_id = ? AND was_shown = 1 AND state <> 1 ORDER BY change DESC LIMIT ?", group,
        limit);
    std::reverse(items.begin(), items.end());
    return items;
}

void Board::rest(const RestRow& rest)
{
    m_statements->exec("INSERT OR REPLACE INTO rests VALUES (?, ?, ?, ?, ?)", rest.person, rest.kind, rest.classId,
                       rest.until, rest.reason);
}

void Board::endRest(PersonId person)
{
    m_statements->exec("DELETE FROM rests WHERE person = ?", person);
}

std::vector<RestRow> Board::rests(GroupId group, Instant now) const
{
    return m_statements->rows(
        [](const Query& row) {
            return RestRow{row.id<PersonId>(0), row.value<RestKind>(1), row.maybeId<ClassId>(2), row.instant(3),
                           row.text(4)};
        },
        "SELECT rests.* FROM rests JOIN people ON people.id = rests.person WHERE people.group_id = ? AND until > ?",
        group, now);
}

std::int64_t Board::lastChange() const
{
    auto query = m_statements->query("SELECT value FROM counters WHERE name = 'board'");
    query.step();
    return query.number(0);
}

CallRow Calls::add(const CallRow& call)
{
    m_statements->exec("INSERT INTO calls (group_id, class, person, at) VALUES (?, ?, ?, ?)", call.group, call.classId,
                       call.person, call.at);
    return *callById(*m_statements, m_statements->lastId());
}

Result<CallRow> Calls::take(GroupId group, std::int64_t id, PersonId by, Instant now)
{
    const auto call = callById(*m_statements, id);
    if (!call || call->group != group)
        return callUnknown();
    if (call->doneAt)
        return callDone();
    if (call->takenBy && *call->takenBy != by)
        return fail("call-taken", "Somebody else has taken this call.");
    m_statements->exec("UPDATE calls SET taken_by = ?, taken_at = coalesce(taken_at, ?) WHERE id = ?", by, now, id);
    return *callById(*m_statements, id);
}

void Calls::letGo(std::int64_t id, PersonId by)
{
    m_statements->exec("UPDATE calls SET taken_by = NULL, taken_at = NULL"
                       " WHERE id = ? AND taken_by = ? AND done_at IS NULL",
                       id, by);
}

Result<CallRow> Calls::done(GroupId group, std::int64_t id, const std::string& outcome, Instant now)
{
    const auto call = callById(*m_statements, id);
    if (!call || call->group != group)
        return callUnknown();
    if (call->doneAt)
        return callDone();
    m_statements->exec("UPDATE calls SET done_at = ?, outcome = ? WHERE id = ?", now, outcome, id);
    return *callById(*m_statements, id);
}

std::vector<CallRow> Calls::notDone(GroupId group) const
{
    return m_statements->rows(readCall, "SELECT * FROM calls WHERE group_id = ? AND done_at IS NULL ORDER BY id",
                              group);
}

std::size_t Calls::countOf(ClassId id) const
{
    return m_statements
        ->rows([](const Query& row) { return row.number(0); }, "SELECT id FROM calls WHERE class = ?", id)
        .size();
}

} // namespace vh::store
