// Calls for help: made, taken, done; and the contact of whoever called, which is shown only for a reason and logged
// before it is.
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

Error notLeading()
{
    return {"not-leader", "This is for helpers and whoever leads.", {}};
}

const char* lookLogged(wire::Because because)
{
    return because == wire::Because::call ? "contact-for-call" : "contact-for-lost-line";
}

} // namespace

// --- who sees them -------------------------------------------------------------------------------------------------

bool Hall::seesCalls(const Session& session) const
{
    return (kDesk & roleBit(session.role())) != 0 || m_standInsSee.contains(&session);
}

/// A stand-in sees calls while leading, and while there is nobody else to see them.
void Hall::tellStandIns()
{
    const bool alone = std::none_of(m_sessions.begin(), m_sessions.end(),
                                    [](const Session* session) { return (kDesk & roleBit(session->role())) != 0; });
    for (Session* session : m_sessions) {
        if (session->role() != Role::standIn)
            continue;
        const bool sees = alone || leads(*session);
        if (sees == m_standInsSee.contains(session))
            continue;
        m_hereChanged = true;
        if (sees) {
            m_standInsSee.insert(session);
            callsTo(*session);
        } else {
            m_standInsSee.erase(session);
            session->send(wire::Calls{true, {}}, m_log.end());
            session->send(wire::LostLines{}, m_log.end());
        }
    }
}

void Hall::callsTo(Session& session)
{
    const auto send = [&](const auto& piece) { session.send(piece, m_log.end(), net::Weight::bulk); };
    const PersonId self = session.member()->id;
    std::vector<wire::Call> calls;
    calls.reserve(m_calls.size());
    for (const auto& [id, row] : m_calls)
        calls.push_back(callOf(row));
    inPieces(calls, &wire::Calls::calls, true, send);
    send(lostLines());
    for (const auto& [id, row] : m_calls)
        if (const Member* caller = memberById(row.person); caller && row.takenBy == self)
            showContact(session, *caller, wire::Because::call);
    for (const auto& [person, lost] : m_lost)
        if (const Member* member = memberById(person); member && lost.seenBy == self && member->agreements.mayRing)
            showContact(session, *member, wire::Because::lineLost);
}

// --- the contact ---------------------------------------------------------------------------------------------------

/// Why it may not be looked at; nothing: it may.
std::optional<Error> Hall::refusesLook(PersonId person, wire::Because because) const
{
    const Member* member = memberById(person);
    if (!member)
        return Error{"person-unknown", "There is nobody of that name here.", "person"};
    if (because == wire::Because::call) {
        if (std::none_of(m_calls.begin(), m_calls.end(),
                         [&](const auto& each) { return each.second.person == person; }))
            return Error{"no-reason", "Nobody looks at this without a call for help.", "because"};
        return std::nullopt;
    }
    const auto lost = m_lost.find(person);
    if (lost == m_lost.end() || lost->second.back || !isLost(lost->second))
        return Error{"no-reason", "This person's line is not lost.", "because"};
    if (!member->agreements.mayRing)
        return Error{"not-agreed", "This person has not agreed to be rung when the line drops.", "because"};
    return std::nullopt;
}

void Hall::showContact(Session& session, const Member& member, wire::Because because)
{
    session.send(wire::ContactShown{member.id, because, member.where, member.ring, member.contactAt}, m_log.end());
}

/// Asked again, because the answer was lost on the way: shown again, and logged once.
void Hall::on(Session& session, wire::ContactAsk& message)
{
    if (!seesCalls(session))
        return session.refuse(message.id, notLeading());
    if (const auto refused = refusesLook(message.person, message.because))
        return session.refuse(message.id, *refused);
    std::optional<ClassId> classId;
    if (m_run.isOpen())
        classId = m_run.about().classId;
    durably(
        session, message,
        [group = m_group.id, by = session.member()->id, person = message.person, because = message.because, classId,
         at = now()](store::Tables& tables) -> Result<wire::Ack> {
            tables.log.add({0, group, by, lookLogged(because), person, {}, at, {}});
            if (because == wire::Because::lineLost && classId)
                tables.lines.seen(person, *classId, by);
            return wire::Ack{};
        },
        [self = shared_from_this(), weak = session.weak_from_this(), by = session.member()->id, person = message.person,
         because = message.because](bool) {
            if (self->refusesLook(person, because))
                return; // over meanwhile: there is nothing to show it for
            if (const auto lost = self->m_lost.find(person);
                because == wire::Because::lineLost && lost != self->m_lost.end())
                lost->second.seenBy = by;
            self->tellLostLines();
            const auto line = weak.lock();
            const Member* member = self->memberById(person);
            if (line && line->member() && member)
                self->showContact(*line, *member, because);
        });
}

// --- calls ---------------------------------------------------------------------------------------------------------

wire::Call Hall::callOf(const store::CallRow& row) const
{
    wire::Call call;
    call.call = static_cast<std::uint64_t>(row.id);
    call.person = row.person;
    call.at = row.at;
    call.name = nameOfPerson(row.person);
    call.taker = row.takenBy;
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
    m_takerAway.erase(row.id);
    const wire::Call call = callOf(row);
    wire::Calls calls;
    calls.calls.push_back(call);
    tellThose([this](const Session& session) { return seesCalls(session); }, calls);
    if (const Member* member = memberById(row.person); member && member->session)
        member->session->send(wire::CallStatus{call.call, call.takenBy, call.done}, m_log.end());
}

void Hall::on(Session& session, wire::HelpCall& message)
{
    store::CallRow row;
    row.group = m_group.id;
    if (m_run.isOpen())
        row.classId = m_run.about().classId;
    row.person = session.member()->id;
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
            tables.log.add({0, group, caller, "call-taken-back", caller, {}, at, {}});
            *done = *row;
            return wire::Ack{};
        },
        [self = shared_from_this(), done] { self->callChanged(*done); });
}

/// To take it is to look at the contact: both are logged with it.
void Hall::on(Session& session, wire::HelpTake& message)
{
    if (!seesCalls(session))
        return session.refuse(message.id, notLeading());
    auto taken = std::make_shared<store::CallRow>();
    durably(
        session, message,
        [call = static_cast<std::int64_t>(message.call), group = m_group.id, by = session.member()->id, taken,
         at = now()](store::Tables& tables) -> Result<wire::Ack> {
            auto row = tables.calls.take(group, call, by, at);
            if (!row)
                return tl::unexpected<Error>(row.error());
            tables.log.add({0, group, by, "call-taken", row->person, {}, at, {}});
            tables.log.add({0, group, by, lookLogged(wire::Because::call), row->person, {}, at, {}});
            *taken = *row;
            return wire::Ack{};
        },
        [self = shared_from_this(), weak = session.weak_from_this(), taken, by = session.member()->id,
         call = static_cast<std::int64_t>(message.call)](bool again) {
            if (!again)
                self->callChanged(*taken);
            const auto line = weak.lock();
            const auto mine = self->m_calls.find(call);
            if (!line || !line->member() || mine == self->m_calls.end() || mine->second.takenBy != by)
                return;
            if (const Member* caller = self->memberById(mine->second.person))
                self->showContact(*line, *caller, wire::Because::call);
        });
}

void Hall::on(Session& session, wire::HelpDone& message)
{
    if (!seesCalls(session))
        return session.refuse(message.id, notLeading());
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

void Hall::letGoOfCalls()
{
    for (const auto& [id, row] : m_calls) {
        const Member* taker = row.takenBy ? memberById(*row.takenBy) : nullptr;
        if (!row.takenBy || (taker && taker->session && seesCalls(*taker->session))) {
            m_takerAway.erase(id);
            continue;
        }
        auto& since = m_takerAway.try_emplace(id, now()).first->second;
        if (now() - since < wire::kTakerAwayFor)
            continue;
        since = now(); // while it is being written
        const auto submitted = m_setup.store->submit(
            [group = m_group.id, id = id, by = *row.takenBy, person = row.person,
             at = now()](store::Tables& tables) -> Result<bool> {
                tables.calls.letGo(id, by);
                tables.log.add({0, group, by, "call-let-go", person, {}, at, {}});
                return true;
            },
            [self = shared_from_this(), id = id, by = *row.takenBy](const Result<bool>& written) {
                const auto found = self->m_calls.find(id);
                if (!written || found == self->m_calls.end() || found->second.takenBy != by)
                    return; // tried again
                store::CallRow free = found->second;
                free.takenBy.reset();
                free.takenAt.reset();
                self->callChanged(free);
            },
            poster());
        (void)submitted; // full: tried again
    }
}

} // namespace vh::hall
