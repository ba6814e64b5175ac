// Leading: moving the class, who holds the place, and how it went.
#include "server/hall/hall_move.h"
#include "server/hall/state_codec.h"

namespace vh::hall
{

namespace
{

constexpr Millis kEndAgainAfter{1'000};

/// She goes on with the class: what is in the group's window makes room for it.
bool endsWindow(CommandKind command)
{
    return command != CommandKind::wait && command != CommandKind::stretch && command != CommandKind::leaveOut;
}

} // namespace

/// A move that was made and is asked for again, because its answer was lost or its place could not be stored: the same
/// answer, once the place as it is now is on disk.
void Hall::ledAgain(Session& session, const wire::Ack& ack)
{
    auto underWay = session.beginJob();
    if (!underWay)
        return session.refuse(ack.id, busy());
    auto stored = [weak = session.weak_from_this(), self = shared_from_this(), ack, underWay](bool kept) {
        const auto line = weak.lock();
        if (!line)
            return;
        if (kept)
            line->send(ack, self->m_log.end());
        else
            line->refuse(ack.id, busy());
    };
    if (m_run.isOpen())
        return keepPlace(std::move(stored));
    // The class is over: that it is must be on disk.
    auto work = [id = m_run.about().classId](store::Tables& tables) -> Result<bool> {
        const auto row = tables.classes.byId(id);
        if (!row || !row->endedAt)
            return fail("busy", "The end of the class is still to be stored.");
        return true;
    };
    auto done = [stored](const Result<bool>& result) { stored(result.has_value()); };
    if (m_setup.store->submit(std::move(work), std::move(done), poster()) != store::Submitted::accepted)
        session.refuse(ack.id, busy());
}

void Hall::on(Session& session, wire::Lead& message)
{
    move(session, message, [&](const Member& member) {
        m_moveEndsWindow = endsWindow(message.command);
        const Outcome outcome = m_run.lead({message.command, member.id, message.lease, message.serial, message.to,
                                            message.more.value_or(Millis{0}), message.leftOut});
        m_moveEndsWindow = false;
        return outcome;
    });
}

void Hall::on(Session& session, wire::Leading& message)
{
    if (m_run.isOpen())
        m_run.leading(session.member()->id, message.lease);
}

void Hall::on(Session& session, wire::TakePlace& message)
{
    move(session, message, [&](const Member& member) { return m_run.take(member.id, session.role()); });
}

void Hall::on(Session& session, wire::Reassert& message)
{
    move(session, message, [&](const Member& member) {
        return m_run.reassert(member.id, message.lease, {message.serial, message.place, message.leftOut});
    });
}

wire::PlaceNow Hall::placeNow() const
{
    const ClassState& state = m_run.state();
    wire::PlaceNow place;
    place.seq = m_seq;
    place.classId = m_run.about().classId;
    place.revision = state.revision;
    place.serial = state.serial;
    place.turnSerial = state.turnSerial;
    place.phase = state.phase;
    place.place = state.place;
    place.startedAt = state.startedAt;
    place.turnStartedAt = state.turnStartedAt;
    place.turnSpent = state.turnSpent;
    place.turnLength = state.turnLength;
    place.leftOut = state.leftOut;
    place.line = homeLine(state);
    place.leaderName = nameOfPerson(state.lease.holder);
    place.lease = state.lease.epoch;
    return place;
}

void Hall::classChanged()
{
    tellParts();
    if (m_moveEndsWindow || m_run.state().phase == Phase::ended)
        endWindow(); // on disk before the place
    tellAll(placeNow());
    soundFollowsClass();
    tellLease();
    keepPlace(std::exchange(m_whenKept, {}));
    if (m_run.state().phase == Phase::ended)
        loop().post([self = shared_from_this()] { self->classEnded(); });
}

void Hall::keepPlace(const std::function<void(bool)>& kept)
{
    const ClassState& state = m_run.state();
    store::PlaceRow row;
    row.classId = m_run.about().classId;
    row.revision = ++m_placesKept;
    row.leaseEpoch = state.lease.epoch;
    row.state = encodeState(state);
    row.at = now();
    // A correction is stored with the place that counts it, or not at all.
    const std::vector<wire::Hash> parts = m_run.about().parts;
    const bool corrected = parts != m_partsKept;
    const auto submitted = m_setup.store->submit(
        [row, parts, corrected](store::Tables& tables) -> Result<bool> {
            if (auto set = corrected ? tables.classes.setParts(row.classId, parts) : Result<void>{}; !set)
                return tl::unexpected<Error>(set.error());
            if (auto put = tables.classes.putPlace(row); !put)
                return tl::unexpected<Error>(put.error());
            return true;
        },
        [kept, self = shared_from_this(), id = row.classId, parts](const Result<bool>& result) {
            if (result && self->m_run.about().classId == id)
                self->m_partsKept = parts;
            if (kept)
                kept(result.has_value());
        },
        poster());
    if (submitted != store::Submitted::accepted && kept)
        kept(false);
}

void Hall::tellLease()
{
    if (!m_run.isOpen())
        return;
    const ClassState& state = m_run.state();
    wire::LeaseNow lease;
    lease.lease = state.lease.epoch;
    lease.holder = state.lease.holder;
    lease.holderName = nameOfPerson(state.lease.holder);
    lease.silent = state.silentSince.has_value();
    for (Session* session : m_sessions)
        if (session->role() == Role::leader || session->role() == Role::standIn) {
            lease.mine = session->member()->id == state.lease.holder;
            session->send(lease, m_log.end());
        }
}

void Hall::classEnded()
{
    if (!m_run.isOpen())
        return;
    const ClassState& state = m_run.state();
    wire::Summary summary = m_summary;
    summary.planned = plannedLength(m_run.script());
    if (state.startedAt && state.endedAt)
        summary.actual = std::chrono::duration_cast<Millis>(*state.endedAt - *state.startedAt);
    sendAttendance(summary);
    linesEnd();
    keepEnd(m_run.about().classId, now());
    m_run.close();
    m_parts.clear();
    letDeskSeeLevels(false);
    classRestsEnd();
}

/// Again and again until it is on disk: as long as it is not, no other class can open.
void Hall::keepEnd(ClassId id, Instant at)
{
    const auto later = [self = shared_from_this(), id, at] {
        self->m_endRetry = self->loop().after(kEndAgainAfter, [self = self.get(), id, at] { self->keepEnd(id, at); });
    };
    const auto submitted = m_setup.store->submit(
        [id, at](store::Tables& tables) -> Result<bool> {
            (void)tables.classes.end(id, at); // class-unknown: erased meanwhile, which is an end too
            return true;
        },
        [later](const Result<bool>& ended) {
            if (!ended)
                later();
        },
        poster());
    if (submitted == store::Submitted::full)
        later();
}

} // namespace vh::hall
