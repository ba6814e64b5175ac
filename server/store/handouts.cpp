#include "server/store/statements.h"
#include "server/store/tables.h"

namespace vh::store
{

Result<HandoutRow> Handouts::offer(const HandoutRow& row)
{
    const auto title =
        m_statements->row([](const Query& found) { return found.text(0); },
                          "SELECT title FROM classes WHERE id = ? AND group_id = ?", row.classId, row.group);
    if (!title)
        return fail("class-unknown", "There is no such class.");
    std::int64_t bytes = 0;
    for (const Hash& part : row.parts) {
        const auto size = m_statements->row([](const Query& found) { return found.number(0); },
                                            "SELECT length(bytes) FROM parts WHERE hash = ?", part);
        if (!size)
            return fail("part-unknown", "Not all parts of the handout have been put here yet.", "parts");
        bytes += *size;
    }
    if (row.parts.empty() || bytes != row.bytes)
        return fail("handout-unfit", "The parts of this handout do not make a file of that size.", "bytes");
    drop(row.group);
    m_statements->exec("INSERT INTO handouts VALUES (?, ?, ?, ?)", row.group, row.classId, row.hash, row.bytes);
    std::int64_t number = 0;
    for (const Hash& part : row.parts)
        m_statements->exec("INSERT INTO handout_parts VALUES (?, ?, ?)", row.group, number++, part);
    HandoutRow stored = row;
    stored.title = *title;
    return stored;
}

std::optional<HandoutRow> Handouts::ofGroup(GroupId group) const
{
    auto row = m_statements->row(
        [](const Query& found) {
            HandoutRow handout;
            handout.group = found.id<GroupId>(0);
            handout.classId = found.id<ClassId>(1);
            handout.title = found.text(2);
            handout.hash = found.array<32>(3);
            handout.bytes = found.number(4);
            return handout;
        },
        "SELECT h.group_id, h.class, c.title, h.hash, h.bytes FROM handouts h JOIN classes c ON c.id = h.class"
        " WHERE h.group_id = ?",
        group);
    if (row)
        row->parts = m_statements->rows([](const Query& found) { return found.array<32>(0); },
                                        "SELECT part FROM handout_parts WHERE group_id = ? ORDER BY number", group);
    return row;
}

void Handouts::drop(GroupId group)
{
    m_statements->exec("DELETE FROM handouts WHERE group_id = ?", group);
}

} // namespace vh::store
