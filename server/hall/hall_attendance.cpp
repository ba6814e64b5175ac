// Who was there: by their own line, or written in by hand.
#include "common/base/text.h"
#include "server/hall/hall_store.h"

namespace vh::hall
{

void Hall::cameIn(Member& member)
{
    if (std::exchange(member.came, true))
        return;
    if (!member.agreements.attendanceNamed && m_nameless > 0) {
        --m_nameless;
        return;
    }
    store::AttendanceRow row;
    row.classId = m_run.about().classId;
    row.arrivedAt = now();
    if (member.agreements.attendanceNamed) {
        row.person = member.id;
        row.name = member.name;
    }
    m_setup.store->submit(
        [row](store::Tables& tables) -> Result<bool> {
            tables.classes.arrived(row);
            return true;
        },
        [](const Result<bool>&) {}, poster());
}

void Hall::on(Session& session, wire::AttendByHand& message)
{
    const auto name = cleanLine(message.name, wire::kNameLength);
    if (!name)
        return session.refuse(message.id, {"name-empty", "Please write a name.", "name"});
    store::AttendanceRow row;
    row.name = *name;
    row.arrivedAt = now();
    row.byHand = true;
    durably(
        session, message,
        [row, group = m_group.id](store::Tables& tables) mutable -> Result<wire::Ack> {
            const auto open = tables.classes.openOf(group);
            if (!open)
                return fail("no-class", "No class is open.");
            row.classId = open->id;
            tables.classes.arrived(row);
            return wire::Ack{};
        },
        [self = shared_from_this()] { self->sendAttendance(); });
}

void Hall::sendAttendance(std::optional<wire::Summary> over)
{
    if (!m_run.isOpen())
        return;
    auto done = [self = shared_from_this(), over](const Result<std::vector<store::AttendanceRow>>& rows) mutable {
        if (!rows)
            return;
        wire::Attendance attendance;
        for (const store::AttendanceRow& row : *rows)
            attendance.present.push_back({row.name, row.byHand, row.arrivedAt, row.leftAt});
        self->tell(kDesk, attendance, net::Weight::bulk);
        if (!over)
            return;
        over->came = static_cast<std::uint32_t>(rows->size());
        self->tell(rolesOf(Role::leader), *over);
        if (!self->m_run.isOpen()) // the next class may have opened already
            self->m_over = over;
    };
    m_setup.store->submit(
        [id = m_run.about().classId](store::Tables& tables) -> Result<std::vector<store::AttendanceRow>> {
            return tables.classes.attendance(id);
        },
        std::move(done), poster());
}

} // namespace vh::hall
