#include "server/store/statements.h"
#include "server/store/tables.h"

namespace vh::store
{

namespace
{

ClassRow readClass(const Query& row)
{
    return {row.id<ClassId>(0), row.id<GroupId>(1), row.id<PersonId>(2), row.text(3),
            row.array<32>(4),   row.instant(5),     row.maybeInstant(6), row.number(7) != 0};
}

PlaceRow readPlace(const Query& row)
{
    return {row.id<ClassId>(0), row.number(1), row.number(2), row.bytes(3), row.instant(4)};
}

AttendanceRow readAttendance(const Query& row)
{
    return {row.id<ClassId>(0), row.maybeId<PersonId>(1), row.text(2),
            row.instant(3),     row.maybeInstant(4),      row.number(5) != 0};
}

tl::unexpected<Error> classUnknown()
{
    return fail("class-unknown", "There is no such class.");
}

} // namespace

Result<ClassRow> Classes::open(GroupId group, PersonId leader, const std::string& title, const Hash& script,
                               Instant now)
{
    if (openOf(group))
        return fail("class-open", "This group has a class open already.");
    if (!m_statements->exists("SELECT 1 FROM parts WHERE hash = ?", script))
        return fail("part-unknown", "The script has not been published yet.");
    const ClassRow row{ClassId::random(), group, leader, title, script, now, std::nullopt, false};
    m_statements->exec("INSERT INTO classes VALUES (?, ?, ?, ?, ?, ?, NULL, 0)", row.id, group, leader, title, script,
                       now);
    if (const auto used = usePart(row.id, script); !used)
        return tl::unexpected(used.error());
    return row;
}

Result<void> Classes::end(ClassId id, Instant now)
{
    if (m_statements->exec("UPDATE classes SET ended_at = coalesce(ended_at, ?) WHERE id = ?", now, id) == 0)
        return classUnknown();
    return {};
}

Result<void> Classes::setParts(ClassId id, const std::vector<Hash>& parts)
{
    if (!byId(id))
        return classUnknown();
    m_statements->exec("DELETE FROM class_parts WHERE class = ?", id);
    for (const Hash& hash : parts)
        if (const auto used = usePart(id, hash); !used)
            return used;
    m_statements->exec("UPDATE classes SET script = ? WHERE id = ?", parts.front(), id);
    return {};
}

Result<void> Classes::setLevelsToDesk(ClassId id, bool on)
{
    if (m_statements->exec("UPDATE classes SET levels_to_desk = ? WHERE id = ? AND ended_at IS NULL", on ? 1 : 0, id) ==
        0)
        return fail("no-class", "No class is open.");
    return {};
}

std::optional<ClassRow> Classes::byId(ClassId id) const
{
    return m_statements->row(readClass, "SELECT * FROM classes WHERE id = ?", id);
}

std::optional<ClassRow> Classes::openOf(GroupId group) const
{
    return m_statements->row(readClass, "SELECT * FROM classes WHERE group_id = ? AND ended_at IS NULL", group);
}

std::vector<ClassRow> Classes::ofGroup(GroupId group) const
{
    return m_statements->rows(readClass, "SELECT * FROM classes WHERE group_id = ? ORDER BY started_at DESC, id",
                              group);
}

Hash Classes::putPart(const std::string& kind, std::span<const std::uint8_t> bytes, Instant now)
{
    const Hash hash = sha256(bytes);
    m_statements->exec("INSERT INTO parts VALUES (?, ?, ?, ?) ON CONFLICT (hash) DO UPDATE SET stored_at ="
                       " excluded.stored_at",
                       hash, kind, bytes, now);
    return hash;
}

std::optional<PartRow> Classes::part(const Hash& hash) const
{
    return m_statements->row(
        [](const Query& row) {
            return PartRow{row.array<32>(0), row.text(1), row.bytes(2)};
        },
        "SELECT hash, kind, bytes FROM parts WHERE hash = ?", hash);
}

Result<void> Classes::usePart(ClassId id, const Hash& hash)
{
    if (!m_statements->exists("SELECT 1 FROM parts WHERE hash = ?", hash))
        return fail("part-unknown", "This part has not been published yet.");
    m_statements->exec("INSERT INTO class_parts VALUES (?, ?) ON CONFLICT DO NOTHING", id, hash);
    return {};
}

std::vector<Hash> Classes::partsOf(ClassId id) const
{
    return m_statements->rows([](const Query& row) { return row.array<32>(0); },
                              "SELECT part FROM class_parts WHERE class = ? ORDER BY part", id);
}

Result<void> Classes::putPlace(const PlaceRow& place)
{
    if (!byId(place.classId))
        return classUnknown();
    if (m_statements->exists("SELECT 1 FROM places WHERE class = ? AND revision >= ?", place.classId, place.revision))
        return fail("stale-revision", "The class has moved on meanwhile.");
    m_statements->exec("INSERT INTO places VALUES (?, ?, ?, ?, ?)", place.classId, place.revision, place.leaseEpoch,
                       place.state, place.at);
    return {};
}

std::optional<PlaceRow> Classes::latestPlace(ClassId id) const
{
    return m_statements->row(readPlace, "SELECT * FROM places WHERE class = ? ORDER BY revision DESC LIMIT 1", id);
}

std::vector<PlaceRow> Classes::places(ClassId id) const
{
    return m_statements->rows(readPlace, "SELECT * FROM places WHERE class = ? ORDER BY revision", id);
}

void Classes::arrived(const AttendanceRow& row)
{
    m_statements->exec("INSERT INTO attendance (class, person, name, arrived_at, left_at, by_hand)"
                       " VALUES (?, ?, ?, ?, ?, ?)"
                       " ON CONFLICT (class, person) DO UPDATE SET left_at = NULL, name = excluded.name",
                       row.classId, row.person, row.name, row.arrivedAt, row.leftAt, row.byHand ? 1 : 0);
}

void Classes::left(ClassId id, PersonId person, Instant now)
{
    m_statements->exec("UPDATE attendance SET left_at = ? WHERE class = ? AND person = ?", now, id, person);
}

void Classes::eraseName(ClassId id, PersonId person)
{
    m_statements->noteErased();
    m_statements->exec("UPDATE attendance SET person = NULL, name = '' WHERE class = ? AND person = ?", id, person);
}

std::vector<AttendanceRow> Classes::attendance(ClassId id) const
{
    return m_statements->rows(readAttendance,
                              "SELECT class, person, name, arrived_at, left_at, by_hand FROM attendance"
                              " WHERE class = ? ORDER BY arrived_at, id",
                              id);
}

} // namespace vh::store
