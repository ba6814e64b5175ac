#include "common/base/join_code.h"
#include "server/store/statements.h"
#include "server/store/tables.h"

#include <stdexcept>

namespace vh::store
{

namespace
{

GroupRow readGroup(const Query& row)
{
    GroupRow group;
    group.id = row.id<GroupId>(0);
    group.name = row.text(1);
    group.code = row.text(2);
    group.createdAt = row.instant(3);
    group.retention = {static_cast<int>(row.number(4)), static_cast<int>(row.number(5)),
                       static_cast<int>(row.number(6)), static_cast<int>(row.number(7))};
    group.boardOpen = row.number(8) != 0;
    return group;
}

/// 23^6 codes are 148 million: a second draw is already rare, a hundred in vain mean a broken random source.
std::string freeCode(Statements& statements)
{
    for (int draw = 0; draw < 100; ++draw) {
        std::string code = makeJoinCode();
        if (!statements.exists("SELECT 1 FROM groups WHERE code = ?", code))
            return code;
    }
    throw std::runtime_error("no free join code found");
}

Error groupUnknown()
{
    return {"group-unknown", "There is no such group.", {}};
}

} // namespace

GroupRow Groups::add(const std::string& name, Instant now)
{
    GroupRow group{GroupId::random(), name, freeCode(*m_statements), now, {}};
    const Retention& keep = group.retention;
    m_statements->exec("INSERT INTO groups VALUES (?, ?, ?, ?, ?, ?, ?, ?, 0)", group.id, group.name, group.code,
                       group.createdAt, keep.boardDays, keep.resultDays, keep.attendanceDays, keep.logDays);
    return group;
}

std::optional<GroupRow> Groups::byId(GroupId id) const
{
    return m_statements->row(readGroup, "SELECT * FROM groups WHERE id = ?", id);
}

std::optional<GroupRow> Groups::byCode(const std::string& code) const
{
    return m_statements->row(readGroup, "SELECT * FROM groups WHERE code = ?", code);
}

std::vector<GroupRow> Groups::all() const
{
    return m_statements->rows(readGroup, "SELECT * FROM groups ORDER BY created_at, id");
}

Result<std::string> Groups::renewCode(GroupId id)
{
    std::string code = freeCode(*m_statements);
    if (m_statements->exec("UPDATE groups SET code = ? WHERE id = ?", code, id) == 0)
        return tl::unexpected(groupUnknown());
    return code;
}

Result<void> Groups::setRetention(GroupId id, const Retention& keep)
{
    if (m_statements->exec("UPDATE groups SET board_days = ?, result_days = ?, attendance_days = ?, log_days = ?"
                           " WHERE id = ?",
                           keep.boardDays, keep.resultDays, keep.attendanceDays, keep.logDays, id) == 0)
        return tl::unexpected(groupUnknown());
    return {};
}

Result<void> Groups::setBoardOpen(GroupId id, bool open)
{
    if (m_statements->exec("UPDATE groups SET board_open = ? WHERE id = ?", open ? 1 : 0, id) == 0)
        return tl::unexpected(groupUnknown());
    return {};
}

} // namespace vh::store
