// Calls for help and attendance.
#include "common/base/text.h"
#include "server/hall/hall_store.h"

namespace vh::hall
{

namespace
{

Error callUnknown()
{
    return {"call-unknown", "There is no such call.", "call"};
}

} // namespace

// --- calls for help ------------------------------------------------------------------------------------------------

wire::Call Hall::callOf(const store::CallRow& row) const
{
    wire::Call call;
    call.call = static_cast<std::uint64_t>(row.id);
    call.person = row.person;
    call.at = row.at;
    call.where = row.where;
    if (const Member* member = memberById(row.person)) {
        call.name = member->name;
        call.ring = member->ring;
    }
    if (row.takenBy)
        call.takenBy = nameOfPerson(*row.takenBy);
    call.done = row.doneAt.has_value();
    return call;
}

void Hall::callChanged(const store::CallRow& row)
{
    if (row.doneAt)
        m_calls.erase(row.id);
    else
        m_calls[row.id] = row;
    const wire::Call call = callOf(row);
    wire::Calls calls;
    calls.calls.push_back(call);
    tell(kDesk, calls);
    if (const Member* member = memberById(row.person); member && member->session)
        member->session->send(wire::CallStatus{call.call, call.takenBy, call.done}, m_log.end());
}

void Hall::on(Session& session, wire::HelpCall& message)
{
    const Member& member = *session.member();
    store::CallRow row;
    row.group = m_group.id;
    if (m_run.isOpen())
        row.classId = m_run.about().classId;
    row.person = member.id;
    row.where = member.where;
    row.at = now();
    auto added = std::make_shared<store::CallRow>();
    durably(
        session, message,
        [row, added](store::Tables& tables) -> Result<wire::Ack> {
            wire::Ack ack;
            for (const store::CallRow& open : tables.calls.notDone(row.group))
                if (open.person == row.person) { // pressed again: it is the same call
                    ack.item = static_cast<std::uint64_t>(open.id);
                    return ack;
                }
            *added = tables.calls.add(row);
            ack.item = static_cast<std::uint64_t>(added->id);
            return ack;
        },
        [self = shared_from_this(), added] {
            if (added->id == 0)
                return;
            ++self->m_summary.calls;
            self->callChanged(*added);
        });
}

void Hall::on(Session& session, wire::HelpTakeBack& message)
{
    auto done = std::make_shared<store::CallRow>();
    durably(
        session, message,
        [call = static_cast<std::int64_t>(message.call), caller = session.member()->id, group = m_group.id, done,
         at = now()](store::Tables& tables) -> Result<wire::Ack> {
            const auto open = tables.calls.notDone(group);
            const auto own = std::find_if(open.begin(), open.end(), [&](const store::CallRow& row) {
                return row.id == call && row.person == caller;
            });
            if (own == open.end())
                return tl::unexpected<Error>(callUnknown());
            auto row = tables.calls.done(group, call, "taken back", at);
            if (!row)
                return tl::unexpected<Error>(row.error());
            *done = *row;
            return wire::Ack{};
        },
        [self = shared_from_this(), done] { self->callChanged(*done); });
}

void Hall::on(Session& session, wire::HelpTake& message)
{
    auto taken = std::make_shared<store::CallRow>();
    durably(
        session, message,
        [call = static_cast<std::int64_t>(message.call), group = m_group.id, by = session.member()->id, taken,
         at = now()](store::Tables& tables) -> Result<wire::Ack> {
            auto row = tables.calls.take(group, call, by, at);
            if (!row)
                return tl::unexpected<Error>(row.error());
            *taken = *row;
            return wire::Ack{};
        },
        [self = shared_from_this(), taken] { self->callChanged(*taken); });
}

void Hall::on(Session& session, wire::HelpDone& message)
{
    auto done = std::make_shared<store::CallRow>();
    durably(
        session, message,
        [call = static_cast<std::int64_t>(message.call), group = m_group.id, by = session.member()->id,
         outcome = cleanLine(message.outcome, wire::kWhereLength).value_or(""), done,
         at = now()](store::Tables& tables) -> Result<wire::Ack> {
            auto row = tables.calls.done(group, call, outcome, at);
            if (!row)
                return tl::unexpected<Error>(row.error());
            tables.log.add({0, group, by, "call-done", row->person, outcome, at, {}});
            *done = *row;
            return wire::Ack{};
        },
        [self = shared_from_this(), done] { self->callChanged(*done); });
}

// --- attendance ----------------------------------------------------------------------------------------------------

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
