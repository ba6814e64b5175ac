// Lines that broke off, of people who may be rung then; and whom to ring when nobody is there to help.
#include "server/store/statements.h"
#include "server/store/tables.h"

namespace vh::store
{

void Lines::watch(PersonId person, ClassId classId)
{
    m_statements->exec("INSERT INTO watched_lines VALUES (?1, ?2, NULL, NULL) ON CONFLICT (person) DO UPDATE SET"
                       " class = ?2, lost_at = NULL",
                       person, classId);
}

void Lines::lost(PersonId person, Instant now)
{
    m_statements->exec("UPDATE watched_lines SET lost_at = ? WHERE person = ?", now, person);
}

void Lines::seen(PersonId person, ClassId classId, PersonId by)
{
    m_statements->exec("INSERT INTO watched_lines VALUES (?1, ?2, NULL, ?3) ON CONFLICT (person) DO UPDATE SET"
                       " seen_by = ?3",
                       person, classId, by);
}

void Lines::forget(PersonId person)
{
    m_statements->exec("DELETE FROM watched_lines WHERE person = ?", person);
}

void Lines::forgetUnseen(ClassId classId)
{
    m_statements->exec("DELETE FROM watched_lines WHERE class = ? AND seen_by IS NULL", classId);
}

std::vector<WatchedLineRow> Lines::ofGroup(GroupId group) const
{
    return m_statements->rows(
        [](const Query& row) {
            return WatchedLineRow{row.id<PersonId>(0), row.id<ClassId>(1), row.maybeInstant(2),
                                  row.maybeId<PersonId>(3)};
        },
        "SELECT watched_lines.* FROM watched_lines JOIN people ON people.id = watched_lines.person"
        " WHERE people.group_id = ? ORDER BY people.seat",
        group);
}

void Lines::setWhomToRing(GroupId group, const std::string& text, PersonId by, Instant now)
{
    m_statements->exec("INSERT OR REPLACE INTO whom_to_ring VALUES (?, ?, ?, ?)", group, text, by, now);
}

std::string Lines::whomToRing(GroupId group) const
{
    return m_statements
        ->row([](const Query& row) { return row.text(0); }, "SELECT text FROM whom_to_ring WHERE group_id = ?", group)
        .value_or(std::string());
}

} // namespace vh::store
