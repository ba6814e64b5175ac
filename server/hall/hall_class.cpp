// Leading: opening a class, moving it, who holds the place, and how it went.
#include "common/base/base64.h"
#include "common/wire/binary.h"
#include "common/wire/login_text.h"
#include "common/wire/script_json.h"
#include "server/hall/hall_store.h"
#include "server/hall/state_codec.h"

#include <algorithm>

namespace vh::hall
{

namespace
{

Error refusalOf(Refusal refusal)
{
    switch (refusal) {
    case Refusal::oldLease:
        return {"old-lease", "Somebody else leads now.", {}};
    case Refusal::oldPlace:
        return {"old-place", "The class has already moved on.", {}};
    case Refusal::notLeader:
        return {"not-leader", "Somebody else holds the place.", {}};
    case Refusal::notNow:
    case Refusal::none:
        break;
    }
    return {"not-now", "That is not possible at this point of the class.", {}};
}

constexpr std::size_t kMovesRemembered = 64;
constexpr Millis kEndAgainAfter{1'000};

Error noClass()
{
    return {"no-class", "No class is open.", {}};
}

} // namespace

void Hall::on(Session& session, wire::PartPut& message)
{
    const auto bytes = bytesOfBase64(message.base64);
    if (!bytes || bytes->size() > wire::kPartBytes)
        return session.refuse(message.id, {"part-unreadable", "This part of the class is not whole.", "base64"});
    if (store::sha256(*bytes) != message.hash)
        return session.refuse(message.id, {"part-altered", "This part of the class does not match its hash.", "hash"});
    onDisk(
        session, message.id,
        [bytes = *bytes, at = now()](store::Tables& tables) -> Result<wire::Ack> {
            tables.classes.putPart(
                wire::decodeScript({reinterpret_cast<const char*>(bytes.data()), bytes.size()}) ? "script" : "picture",
                bytes, at);
            return wire::Ack{};
        },
        [] {});
}

void Hall::on(Session& session, wire::PartAsk& message)
{
    if (!m_run.isOpen())
        return session.refuse({}, noClass());
    const auto& parts = m_run.about().parts;
    if (std::find(parts.begin(), parts.end(), message.hash) == parts.end())
        return session.refuse({}, {"part-unknown", "The open class has no such part.", "hash"});
    if (const auto kept = m_parts.find(message.hash); kept != m_parts.end())
        return session.connection()->send(kept->second, m_log.end(), net::Weight::bulk);
    auto work = [hash = message.hash](store::Tables& tables) -> Result<net::FrameBytes> {
        const auto part = tables.classes.part(hash);
        if (!part)
            return fail("part-unknown", "The open class has no such part.", "hash");
        return net::makeFrame(wire::Opcode::binary, wire::encodePart(hash, part->bytes));
    };
    auto underWay = session.beginJob();
    if (!underWay)
        return session.refuse({}, busy());
    auto done = [self = shared_from_this(), weak = session.weak_from_this(), underWay = std::move(underWay),
                 hash = message.hash](const Result<net::FrameBytes>& frame) {
        const auto line = weak.lock();
        if (!frame)
            return line ? line->refuse({}, frame.error()) : void();
        self->m_parts[hash] = *frame;
        if (line && line->connection())
            line->connection()->send(*frame, self->m_log.end(), net::Weight::bulk);
    };
    if (m_setup.store->submit(std::move(work), std::move(done), poster()) != store::Submitted::accepted)
        session.refuse({}, busy());
}

void Hall::on(Session& session, wire::OpenClass& message)
{
    const auto title = cleanLine(message.title, wire::kTitleLength);
    if (message.parts.empty() || !title)
        return session.refuse(message.id, {"class-empty", "A class needs a title and a script.", "parts"});
    struct Opened {
        store::ClassRow row;
        std::shared_ptr<const ClassScript> script;
    };
    auto opened = std::make_shared<Opened>();
    durably(
        session, message,
        [opened, group = m_group.id, leader = session.member()->id, title = *title, parts = message.parts,
         at = now()](store::Tables& tables) -> Result<wire::Ack> {
            const auto part = tables.classes.part(parts.front());
            if (!part)
                return fail("part-unknown", "The script has not been put here yet.", "parts[0]");
            auto script = wire::decodeScript({reinterpret_cast<const char*>(part->bytes.data()), part->bytes.size()});
            if (!script)
                return fail("malformed", "The first part is not a class: " + script.error().message, "parts[0]");
            auto row = tables.classes.open(group, leader, title, parts.front(), at);
            if (!row)
                return tl::unexpected<Error>(row.error());
            for (const auto& hash : parts)
                if (auto used = tables.classes.usePart(row->id, hash); !used)
                    return tl::unexpected<Error>(used.error());
            opened->row = *row;
            opened->script = std::make_shared<const ClassScript>(std::move(*script));
            wire::Ack ack;
            ack.classId = row->id;
            ack.lease = 1;
            return ack;
        },
        [self = shared_from_this(), opened, parts = message.parts, at = now()] {
            std::vector<PersonId> standIns;
            for (const auto& [id, member] : self->m_members)
                if (member->has(Role::standIn))
                    standIns.push_back(id);
            self->classOpened({0, opened->row.id, opened->row.title, parts}, opened->script,
                              openClass(*opened->script, 1, opened->row.leader, standIns, at));
        });
}

void Hall::classOpened(wire::ClassOpen about, std::shared_ptr<const ClassScript> script, const ClassState& state)
{
    m_parts.clear();
    m_placesKept = 0;
    m_summary = {};
    m_over.reset();
    m_worth = {};
    m_hereChanged = true;
    m_nameless = 0;
    m_led.clear();
    for (auto& [id, member] : m_members) {
        member->judge = {};
        member->story = {};
        member->saidHello = false;
        member->reading.reset();
        member->came = false;
        touch(*member);
    }
    about.seq = ++m_seq;
    m_log.append(wire::Opcode::text, wire::encode(about), net::FrameKind::lasting);
    m_run.open(std::move(about), std::move(script), state);
    for (Session* session : m_sessions)
        if (session->role() == Role::participant || session->role() == Role::standIn)
            cameIn(*session->member());
}

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

/// One change of place by somebody who leads. Everybody hears of it at once; the answer waits for the disk.
template <class Message, class Move>
void Hall::move(Session& session, const Message& message, Move change)
{
    const RequestId id = message.id;
    const PersonId who = session.member()->id;
    const store::Hash payload = store::sha256(wire::encode(message));
    const auto before =
        std::find_if(m_led.begin(), m_led.end(), [&](const Led& led) { return led.who == who && led.ack.id == id; });
    if (before != m_led.end() && before->payload != payload)
        return session.refuse(id, {"conflict", "This has been asked for before, in other words.", "id"});
    if (before != m_led.end())
        return ledAgain(session, before->ack);
    if (!m_run.isOpen())
        return session.refuse(id, noClass());
    m_run.catchUp(); // so that what changes below is the command's doing
    struct Asked {
        wire::Ack ack;
        bool refused = false;
    };
    auto asked = std::make_shared<Asked>();
    asked->ack.id = id;
    m_whenKept = [self = shared_from_this(), weak = session.weak_from_this(), asked](bool kept) {
        const auto line = weak.lock();
        if (!line || asked->refused)
            return;
        if (kept)
            line->send(asked->ack, self->m_log.end());
        else
            line->refuse(asked->ack.id, busy()); // it has moved: asked again, only the storing is done again
    };
    const Outcome outcome = change(*session.member());
    const auto unused = std::exchange(m_whenKept, {});
    if (outcome.refusal != Refusal::none) {
        asked->refused = true;
        return session.refuse(id, refusalOf(outcome.refusal));
    }
    asked->ack.serial = outcome.state.serial;
    asked->ack.lease = outcome.state.lease.epoch;
    m_led.push_back({who, payload, asked->ack});
    if (m_led.size() > kMovesRemembered)
        m_led.pop_front();
    if (unused)
        unused(true); // nothing had to change
}

void Hall::on(Session& session, wire::Lead& message)
{
    move(session, message, [&](const Member& member) {
        return m_run.lead({message.command, member.id, message.lease, message.serial});
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
    move(session, message,
         [&](const Member& member) { return m_run.reassert(member.id, message.lease, message.serial, message.place); });
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
    place.line = homeLine(state);
    place.leaderName = nameOfPerson(state.lease.holder);
    place.lease = state.lease.epoch;
    return place;
}

void Hall::classChanged()
{
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
    const auto submitted = m_setup.store->submit(
        [row](store::Tables& tables) -> Result<bool> {
            if (auto put = tables.classes.putPlace(row); !put)
                return tl::unexpected<Error>(put.error());
            return true;
        },
        [kept](const Result<bool>& result) {
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
    keepEnd(m_run.about().classId, now());
    m_run.close();
    m_parts.clear();
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
