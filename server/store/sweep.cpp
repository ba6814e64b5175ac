// What is deleted by age, in one place. docs/storage.md says the same in words: change both.
#include "server/store/statements.h"
#include "server/store/tables.h"

namespace vh::store
{

std::int64_t Tables::sweep(Instant now)
{
    constexpr std::int64_t kDay = 86'400'000;
    const auto ms = static_cast<std::int64_t>(now.time_since_epoch().count());
    std::int64_t gone = 0;
    const auto count = [&gone](int rows) { gone += rows; };

    count(m_statements->exec("DELETE FROM board WHERE at < ? - ? *"
                             " (SELECT board_days FROM groups WHERE id = board.group_id)",
                             ms, kDay));
    count(board.forgetSetAside(now));
    count(m_statements->exec("DELETE FROM calls WHERE done_at < ? - ? *"
                             " (SELECT board_days FROM groups WHERE id = calls.group_id)",
                             ms, kDay));
    count(m_statements->exec("DELETE FROM turn_results WHERE at < ? - ? *"
                             " (SELECT g.result_days FROM classes c JOIN groups g ON g.id = c.group_id"
                             "  WHERE c.id = turn_results.class)",
                             ms, kDay));
    count(m_statements->exec("DELETE FROM attendance WHERE arrived_at < ? - ? *"
                             " (SELECT g.attendance_days FROM classes c JOIN groups g ON g.id = c.group_id"
                             "  WHERE c.id = attendance.class)",
                             ms, kDay));
    count(m_statements->exec("DELETE FROM log WHERE at < ? - ? *"
                             " (SELECT log_days FROM groups WHERE id = log.group_id)",
                             ms, kDay));
    // The class itself, with its places, once nothing that hangs on it is kept any longer.
    count(m_statements->exec("DELETE FROM classes WHERE ended_at < ? - ? *"
                             " (SELECT max(result_days, attendance_days, board_days) FROM groups"
                             "  WHERE id = classes.group_id)",
                             ms, kDay));
    count(m_statements->exec("DELETE FROM people WHERE removed_at < ?", now - kRemovedKept));
    count(m_statements->exec("DELETE FROM rests WHERE until < ?", now));
    count(m_statements->exec("DELETE FROM requests WHERE at < ?", now - kAnswersKept));
    count(m_statements->exec("DELETE FROM links WHERE expires_at < ?", now - kDeadLinksKept));
    // A part that was published and never used by a class gets a day: the class may be about to open. A picture that
    // somebody sent goes with its item.
    count(m_statements->exec("DELETE FROM parts WHERE (stored_at < ? - ? OR kind = 'sent-picture')"
                             " AND hash NOT IN (SELECT part FROM class_parts)"
                             " AND hash NOT IN (SELECT part FROM handout_parts)"
                             " AND hash NOT IN (SELECT picture FROM board WHERE picture IS NOT NULL)",
                             ms, kDay));
    if (gone > 0)
        m_statements->noteErased();
    return gone;
}

} // namespace vh::store
