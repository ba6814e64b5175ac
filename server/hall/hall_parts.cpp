// The class and its parts: put, asked for, opened.
#include "common/base/base64.h"
#include "common/wire/binary.h"
#include "common/wire/login_text.h"
#include "common/wire/script_json.h"
#include "server/hall/hall_move.h"

namespace vh::hall
{

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

} // namespace vh::hall
