// Turn results and the log of what leaders and helpers did.
#include "server/store/statements.h"
#include "server/store/tables.h"

namespace vh::store
{

namespace
{

TurnResultRow readResult(const Query& row)
{
    TurnResultRow result;
    result.person = row.id<PersonId>(0);
    result.classId = row.id<ClassId>(1);
    result.turnSerial = row.number(2);
    result.sectionKind = row.text(3);
    result.voiced = Millis{row.number(4)};
    if (const auto leq = row.maybeNumber(5))
        result.leqOverUsualTenthsDb = static_cast<int>(*leq);
    result.standing = row.text(6);
    result.blank = row.text(7);
    result.judgeVersion = static_cast<int>(row.number(8));
    result.at = row.instant(9);
    return result;
}

LogRow readLog(const Query& row)
{
    return {row.number(0), row.id<GroupId>(1), row.maybeId<PersonId>(2), row.text(3), row.maybeId<PersonId>(4),
            row.text(5),   row.instant(6),     row.maybeNumber(7)};
}

} // namespace

void TurnResults::put(const TurnResultRow& row)
{
    m_statements->exec("INSERT OR REPLACE INTO turn_results VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)", row.person,
                       row.classId, row.turnSerial, row.sectionKind, static_cast<std::int64_t>(row.voiced.count()),
                       row.leqOverUsualTenthsDb, row.standing, row.blank, row.judgeVersion, row.at);
}

std::vector<TurnResultRow> TurnResults::ofPerson(PersonId person) const
{
    return m_statements->rows(readResult, "SELECT * FROM turn_results WHERE person = ? ORDER BY at, turn_serial",
                              person);
}

std::vector<TurnResultRow> TurnResults::ofClass(ClassId id) const
{
    return m_statements->rows(readResult, "SELECT * FROM turn_results WHERE class = ? ORDER BY turn_serial, person",
                              id);
}

void TurnResults::eraseOf(PersonId person)
{
    m_statements->noteErased();
    m_statements->exec("DELETE FROM turn_results WHERE person = ?", person);
}

LogRow Log::add(const LogRow& row)
{
    m_statements->exec("INSERT INTO log (group_id, who, what, target, detail, at, undoes)"
                       " VALUES (?, ?, ?, ?, ?, ?, ?)",
                       row.group, row.who, row.what, row.target, row.detail, row.at, row.undoes);
    LogRow stored = row;
    stored.id = m_statements->lastId();
    return stored;
}

std::vector<LogRow> Log::ofGroup(GroupId group, Instant since) const
{
    return m_statements->rows(readLog, "SELECT * FROM log WHERE group_id = ? AND at >= ? ORDER BY at, id", group,
                              since);
}

bool Log::isUndone(std::int64_t id) const
{
    return m_statements->exists("SELECT 1 FROM log WHERE undoes = ?", id);
}

} // namespace vh::store
