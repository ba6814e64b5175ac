// The desk: the board and what is to read, the door, calls for help, attendance by hand.
#include "common/base/text.h"
#include "server/hall/hall_store.h"

#include <algorithm>

namespace vh::hall
{

// --- the board -----------------------------------------------------------------------------------------------------

void Hall::on(Session& session, wire::Write& message)
{
    const auto text = cleanLine(message.text, wire::kChatLength, LineBreaks::keep);
    if (!text)
        return session.refuse(message.id, {"text-empty", "There is nothing to read in this.", "text"});
    store::BoardRow row;
    row.group = m_group.id;
    if (m_run.isOpen())
        row.classId = m_run.about().classId;
    row.author = session.member()->id;
    row.text = *text;
    row.at = now();
    auto added = std::make_shared<store::BoardRow>();
    durably(
        session, message,
        [row, added](store::Tables& tables) -> Result<wire::Ack> {
            *added = tables.board.add(row);
            wire::Ack ack;
            ack.item = static_cast<std::uint64_t>(added->id);
            return ack;
        },
        [self = shared_from_this(), added] {
            self->m_held[added->id] = *added;
            wire::ToRead held;
            held.lines.push_back(
                {static_cast<std::uint64_t>(added->id), self->nameOfPerson(*added->author), added->text, added->at});
            self->tell(kDesk, held);
        });
}

void Hall::on(Session& session, wire::Decide& message)
{
    const auto item = static_cast<std::int64_t>(message.item);
    if (!m_held.contains(item))
        return session.refuse(message.id, {"item-unknown", "Somebody has dealt with this already.", "item"});
    const bool show = message.decision == wire::Decision::show;
    auto decided = std::make_shared<store::BoardRow>();
    durably(
        session, message,
        [item, show, by = session.member()->id, group = m_group.id, decided,
         at = now()](store::Tables& tables) -> Result<wire::Ack> {
            const auto before = tables.board.byId(item);
            if (!before || before->state != store::BoardState::held)
                return fail("item-unknown", "Somebody has dealt with this already.", "item");
            auto row = tables.board.decide(item, show ? store::BoardState::shown : store::BoardState::setAside, by, at);
            if (!row)
                return tl::unexpected<Error>(row.error());
            tables.log.add(
                {0, group, by, show ? "line-shown" : "line-set-aside", row->author, std::to_string(item), at, {}});
            *decided = *row;
            return wire::Ack{};
        },
        [self = shared_from_this(), decided, decision = message.decision] {
            self->m_held.erase(decided->id);
            self->tell(kDesk, wire::Decided{static_cast<std::uint64_t>(decided->id), decision,
                                            self->nameOfPerson(*decided->decidedBy)});
            if (decided->state == store::BoardState::shown)
                self->shown(*decided);
        });
}

void Hall::on(Session& session, wire::Notice& message)
{
    const auto text = cleanLine(message.text, wire::kNoticeLength, LineBreaks::keep);
    if (!text)
        return session.refuse(message.id, {"text-empty", "There is nothing to read in this.", "text"});
    store::BoardRow row;
    row.group = m_group.id;
    if (m_run.isOpen())
        row.classId = m_run.about().classId;
    row.author = session.member()->id;
    row.kind = store::BoardKind::notice;
    row.state = store::BoardState::shown;
    row.text = *text;
    row.at = now();
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

wire::BoardItem Hall::boardItem(const store::BoardRow& row) const
{
    wire::BoardItem item;
    item.item = static_cast<std::uint64_t>(row.id);
    item.change = static_cast<std::uint64_t>(row.change);
    item.kind = row.kind == store::BoardKind::notice ? wire::ItemKind::notice : wire::ItemKind::line;
    item.text = row.text;
    item.at = row.at;
    // A board line goes to everybody: its author's name only with that agreement.
    const Member* author = row.author ? memberById(*row.author) : nullptr;
    if (author && item.kind == wire::ItemKind::line && nameShownTo(Viewer::participant, author->agreements))
        item.name = author->name;
    return item;
}

void Hall::shown(const store::BoardRow& row)
{
    m_board.push_back(row);
    if (m_board.size() > wire::kBoardTail)
        m_board.pop_front();
    wire::Board board;
    board.items.push_back(boardItem(row));
    tellAll(board);
}

// --- the door ------------------------------------------------------------------------------------------------------

void Hall::knock(Session& session, const std::string& name, const std::string& device)
{
    if (m_door.size() >= wire::kDoorWaiting)
        return session.close(kCloseTryLater, "Very many are waiting at the door. Please try again in a few minutes.");
    const std::uint64_t door = m_nextDoor++;
    m_door[door] = {{door, name, device, now()}, session.key(), &session};
    session.isAtDoor(*this);
    session.send(wire::AtDoor{m_group.id, m_group.name, m_setup.keyWords});
    tellDoor();
}

void Hall::tellDoor()
{
    wire::Door door;
    door.words = m_setup.keyWords;
    for (const auto& [id, waiting] : m_door)
        door.waiting.push_back(waiting.about);
    tell(kDesk, door);
}

void Hall::on(Session& session, wire::LetIn& message)
{
    const auto found = m_door.find(message.door);
    if (found == m_door.end())
        return session.refuse(message.id, {"door-empty", "This person is no longer waiting.", "door"});
    const Member* known = message.person ? memberById(*message.person) : nullptr;
    if (message.person && (!known || session.role() != Role::leader))
        return session.refuse(message.id, {"not-allowed", "Only a leader can say who this is.", "person"});
    const Waiting& waiting = found->second;
    auto person = std::make_shared<store::PersonState>();
    durably(
        session, message,
        [group = m_group.id, by = session.member()->id, name = waiting.about.name, label = waiting.about.device,
         key = waiting.key, known = message.person, person, at = now()](store::Tables& tables) -> Result<wire::Ack> {
            PersonId id;
            std::string detail = hexOf(key);
            if (known) {
                id = *known;
                for (const store::DeviceRow& device : tables.devices.ofPerson(id))
                    if (!device.revokedAt) {
                        detail += " " + hexOf(device.key);
                        if (auto revoked = tables.devices.revoke(device.key, at); !revoked)
                            return tl::unexpected<Error>(revoked.error());
                    }
            } else {
                auto added = tables.people.add(group, name, store::Role::participant, at);
                if (!added)
                    return tl::unexpected<Error>(added.error());
                id = added->id;
            }
            if (auto bound = tables.devices.bind(id, key, label, at); !bound)
                return tl::unexpected<Error>(bound.error());
            tables.log.add({0, group, by, std::string(known ? kBindingLogged : "let-in"), id, detail, at, {}});
            *person = personState(tables, *tables.people.byId(id));
            return wire::Ack{};
        },
        [self = shared_from_this(), person, door = message.door] { self->letIn(*person, door); });
}

void Hall::letIn(const store::PersonState& person, std::uint64_t door)
{
    Member& member = adopt(person);
    const auto found = m_door.find(door);
    Session* waiting = found == m_door.end() ? nullptr : found->second.session;
    if (found != m_door.end())
        m_door.erase(found);
    tellDoor();
    if (!waiting)
        return; // gone meanwhile: from now on a plain login is enough
    if (member.session && !member.owns(member.session->key()))
        member.session->close(kCloseRevoked, "This device has been removed from the group.");
    admit(*waiting, member, Role::participant);
}

void Hall::on(Session& session, wire::TurnAway& message)
{
    const auto found = m_door.find(message.door);
    if (found == m_door.end())
        return session.refuse(message.id, {"door-empty", "This person is no longer waiting.", "door"});
    Session* waiting = found->second.session;
    m_door.erase(found);
    waiting->isOut();
    waiting->close(kCloseTurnedAway, "The helper could not let you in today. Please ask whoever gave you the code.");
    tellDoor();
    wire::Ack ack;
    ack.id = message.id;
    session.send(ack, m_log.end());
}

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
    for (const auto& [id, row] : m_calls)
        if (row.person == member.id) {
            wire::Ack ack; // pressed again: it is the same call
            ack.id = message.id;
            ack.item = static_cast<std::uint64_t>(id);
            return session.send(ack, m_log.end());
        }
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
            *added = tables.calls.add(row);
            wire::Ack ack;
            ack.item = static_cast<std::uint64_t>(added->id);
            return ack;
        },
        [self = shared_from_this(), added] {
            ++self->m_summary.calls;
            self->callChanged(*added);
        });
}

void Hall::on(Session& session, wire::HelpTake& message)
{
    auto taken = std::make_shared<store::CallRow>();
    durably(
        session, message,
        [call = static_cast<std::int64_t>(message.call), by = session.member()->id, taken,
         at = now()](store::Tables& tables) -> Result<wire::Ack> {
            auto row = tables.calls.take(call, by, at);
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
            auto row = tables.calls.done(call, outcome, at);
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
    if (!m_run.isOpen())
        return session.refuse(message.id, {"no-class", "No class is open.", {}});
    const auto name = cleanLine(message.name, wire::kNameLength);
    if (!name)
        return session.refuse(message.id, {"name-empty", "Please write a name.", "name"});
    store::AttendanceRow row;
    row.classId = m_run.about().classId;
    row.name = *name;
    row.arrivedAt = now();
    row.byHand = true;
    durably(
        session, message,
        [row](store::Tables& tables) -> Result<wire::Ack> {
            tables.classes.arrived(row);
            return wire::Ack{};
        },
        [self = shared_from_this()] {
            ++self->m_byHand;
            self->sendAttendance();
        });
}

void Hall::sendAttendance()
{
    if (!m_run.isOpen())
        return;
    auto done = [self = shared_from_this()](const Result<std::vector<store::AttendanceRow>>& rows) {
        if (!rows)
            return;
        wire::Attendance attendance;
        for (const store::AttendanceRow& row : *rows)
            attendance.present.push_back({row.name, row.byHand, row.arrivedAt, row.leftAt});
        self->tell(kDesk, attendance);
    };
    m_setup.store->submit(
        [id = m_run.about().classId](store::Tables& tables) -> Result<std::vector<store::AttendanceRow>> {
            return tables.classes.attendance(id);
        },
        std::move(done), poster());
}

} // namespace vh::hall
