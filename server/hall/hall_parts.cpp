// The class and its parts: put, asked for, opened, corrected.
#include "common/base/base64.h"
#include "common/wire/binary.h"
#include "common/wire/login_text.h"
#include "common/wire/script_json.h"
#include "server/hall/hall_move.h"

namespace vh::hall
{

namespace
{

/// Inside a job of the store: the class script that the first of these parts is.
Result<ClassScript> scriptOf(const store::Tables& tables, const std::vector<wire::Hash>& parts)
{
    const auto part = tables.classes.part(parts.front());
    if (!part)
        return fail("part-unknown", "The script has not been put here yet.", "parts[0]");
    auto script = wire::decodeScript({reinterpret_cast<const char*>(part->bytes.data()), part->bytes.size()});
    if (!script)
        return fail("malformed", "The first part is not a class: " + script.error().message, "parts[0]");
    return script;
}

/// The order of the pictures means nothing.
bool sameParts(const std::vector<wire::Hash>& a, const std::vector<wire::Hash>& b)
{
    return a.front() == b.front() && std::ranges::is_permutation(a, b);
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
    const auto isIn = [&](const std::vector<wire::Hash>& parts) {
        return std::find(parts.begin(), parts.end(), message.hash) != parts.end();
    };
    const bool ofClass = m_run.isOpen() && isIn(m_run.about().parts);
    const bool ofHandout = m_handout && isIn(m_handout->parts);
    if (!m_run.isOpen() && !ofHandout)
        return session.refuse({}, noClass());
    if (!ofClass && !ofHandout)
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
                 hash = message.hash, ofClass](const Result<net::FrameBytes>& frame) {
        const auto line = weak.lock();
        if (!frame)
            return line ? line->refuse({}, frame.error()) : void();
        if (ofClass) // a handout is asked for now and then, and may be large
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
            auto script = scriptOf(tables, parts);
            if (!script)
                return tl::unexpected<Error>(script.error());
            auto row = tables.classes.open(group, leader, title, parts.front(), at);
            if (!row)
                return tl::unexpected<Error>(row.error());
            for (const auto& hash : parts)
                if (auto used = tables.classes.usePart(row->id, hash); !used)
                    return tl::unexpected<Error>(used.error());
            tables.handouts.drop(group); // of the class before
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
    endWindow();
    m_parts.clear();
    m_handout.reset();
    m_placesKept = 0;
    m_summary = {};
    m_over.reset();
    m_worth = {};
    m_hereChanged = true;
    letDeskSeeLevels(false);
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
    m_partsTold = m_partsKept = about.parts;
    m_log.append(wire::Opcode::text, wire::encode(about), net::FrameKind::lasting);
    m_run.open(std::move(about), std::move(script), state);
    for (Session* session : m_sessions)
        if (session->role() == Role::participant || session->role() == Role::standIn)
            cameIn(*session->member()), watchLine(*session->member());
}

/// The corrected script is read by the store's thread; whether it fits is asked when it is there, for the class goes on
/// meanwhile.
void Hall::on(Session& session, wire::ReviseClass& message)
{
    if (!m_run.isOpen())
        return session.refuse(message.id, noClass());
    if (message.parts.empty())
        return session.refuse(message.id, {"class-empty", "A class needs a script.", "parts"});
    auto underWay = session.beginJob();
    if (!underWay)
        return session.refuse(message.id, busy());
    auto work = [parts = message.parts](store::Tables& tables) -> Result<std::shared_ptr<const ClassScript>> {
        for (const auto& hash : parts)
            if (!tables.classes.part(hash))
                return fail("part-unknown", "Not all parts of the class have been put here yet.", "parts");
        auto script = scriptOf(tables, parts);
        if (!script)
            return tl::unexpected<Error>(script.error());
        return std::make_shared<const ClassScript>(std::move(*script));
    };
    auto done = [self = shared_from_this(), weak = session.weak_from_this(), message, underWay = std::move(underWay),
                 classId = m_run.about().classId](const Result<std::shared_ptr<const ClassScript>>& script) {
        const auto line = weak.lock();
        if (!line || !line->member())
            return; // it is asked for again
        if (!script)
            return line->refuse(message.id, script.error());
        if (!self->m_run.isOpen() || self->m_run.about().classId != classId)
            return line->refuse(message.id, noClass());
        self->revise(*line, message, *script);
    };
    if (m_setup.store->submit(std::move(work), std::move(done), poster()) != store::Submitted::accepted)
        session.refuse(message.id, busy());
}

void Hall::revise(Session& session, const wire::ReviseClass& message, const std::shared_ptr<const ClassScript>& script)
{
    const ClassState& state = m_run.state();
    // Made before a restart that has forgotten the answer.
    if (sameParts(message.parts, m_run.about().parts) && message.revision != state.revision) {
        wire::Ack ack;
        ack.id = message.id;
        ack.serial = state.serial;
        ack.lease = state.lease.epoch;
        return ledAgain(session, ack);
    }
    move(session, message, [&](const Member& member) {
        return m_run.revise({member.id, message.lease, message.revision}, script, message.parts);
    });
}

/// Of a correction everybody hears before the place that counts its revision.
void Hall::tellParts()
{
    if (m_partsTold == m_run.about().parts)
        return;
    m_partsTold = m_run.about().parts;
    std::erase_if(m_parts, [&](const auto& part) { return std::ranges::count(m_partsTold, part.first) == 0; });
    tellAll(m_run.about());
}

} // namespace vh::hall
