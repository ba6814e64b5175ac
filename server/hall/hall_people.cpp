// Each person's own matters: agreements, contact, today's voice, band, words, devices, links.
#include "common/base/text.h"
#include "server/hall/desk_item.h"
#include "server/hall/hall_store.h"

#include <algorithm>
#include <cmath>

namespace vh::hall
{

namespace
{

/// What one device row means for the person who owns it.
wire::OwnDevice ownDevice(const store::DeviceRow& row)
{
    return {row.key, row.label, row.since, row.revokedAt.has_value()};
}

using Rows = std::vector<store::BoardRow>;
/// A picture that its author has taken back.
struct Gone {
    store::BoardRow row;
    bool wasShown = false;
};

constexpr RoleSet kInClass = rolesOf(Role::participant, Role::standIn);
constexpr std::size_t kWordsRemembered = 64;
constexpr Millis kSecondDeviceGoodFor = std::chrono::minutes{10};

} // namespace

void Hall::on(Session& session, wire::Agree& message)
{
    Member& member = *session.member();
    Agreements wanted = member.agreements;
    if (!setValue(wanted, message.kind, message.value))
        return session.refuse(message.id, {"value-unknown", "There is no such answer to this question.", "value"});
    // Taking back acts at once; giving counts once it is on disk.
    const bool less = wanted.levelVisible < member.agreements.levelVisible ||
                      wanted.addressed < member.agreements.addressed || message.value == "no";
    if (less) {
        member.agreements = wanted;
        touch(member);
        if (message.kind == AgreementKind::nameSeen)
            nameSeenChanged(member);
        if (message.kind == AgreementKind::mayRing)
            mayRingChanged(member);
    }
    const bool eraseResults = message.kind == AgreementKind::resultsKept && !wanted.resultsKept;
    const bool eraseName = message.kind == AgreementKind::attendanceNamed && !wanted.attendanceNamed;
    const bool erasePictures = message.kind == AgreementKind::pictures && !wanted.pictures;
    auto pictures = std::make_shared<std::vector<Gone>>();
    durably(
        session, message,
        [person = member.id, kind = message.kind, value = message.value, wording = message.wording, key = session.key(),
         eraseResults, eraseName, erasePictures, pictures, group = m_group.id,
         at = now()](store::Tables& tables) -> Result<wire::Ack> {
            if (auto added = tables.agreements.add({person, toStore(kind), value, static_cast<int>(wording), key, at});
                !added)
                return tl::unexpected<Error>(added.error());
            if (eraseResults)
                tables.results.eraseOf(person);
            if (const auto open = tables.classes.openOf(group); open && eraseName)
                tables.classes.eraseName(open->id, person);
            for (const store::BoardRow& row : erasePictures ? tables.board.picturesOf(person) : Rows{}) {
                auto gone = takeBack(tables, row, at);
                if (!gone)
                    return tl::unexpected<Error>(gone.error());
                pictures->push_back({std::move(*gone), row.state == store::BoardState::shown});
            }
            return wire::Ack{};
        },
        [self = shared_from_this(), &member, kind = message.kind, value = message.value, pictures] {
            for (const Gone& each : *pictures)
                self->itemChanged(each.row, each.wasShown);
            (void)setValue(member.agreements, kind, value);
            if (std::find(member.answered.begin(), member.answered.end(), kind) == member.answered.end())
                member.answered.push_back(kind);
            self->touch(member);
            if (kind == AgreementKind::nameSeen)
                self->nameSeenChanged(member);
            if (kind == AgreementKind::mayRing)
                self->mayRingChanged(member);
        });
}

void Hall::on(Session& session, wire::Contact& message)
{
    Member& member = *session.member();
    const std::string where = cleanLine(message.where, wire::kWhereLength).value_or("");
    const std::string ring = cleanLine(message.ring, wire::kWhereLength).value_or("");
    durably(
        session, message,
        [person = member.id, where, ring, at = now()](store::Tables& tables) -> Result<wire::Ack> {
            tables.people.setContact({person, where, ring, at});
            return wire::Ack{};
        },
        [&member, where, ring, at = now()] {
            member.where = where;
            member.ring = ring;
            member.contactAt = at;
        });
}

void Hall::on(Session& session, wire::Today& message)
{
    Member& member = *session.member();
    member.resting = message.voice == wire::VoiceToday::listening;
    touch(member);
}

void Hall::on(Session& session, wire::SetBand& message)
{
    const auto found = m_members.find(message.person);
    if (found == m_members.end())
        return session.refuse(message.id, {"person-unknown", "Nobody of this group.", "person"});
    if (!std::isfinite(message.offsetDb))
        return session.refuse(message.id, {"value-unknown", "The band moves by decibels.", "offsetDb"});
    Member& member = *found->second;
    const float offset = std::clamp(message.offsetDb, -kLargestOffsetDb, kLargestOffsetDb);
    durably(
        session, message,
        [person = member.id, tenths = static_cast<int>(std::lround(offset * 10)), by = session.member()->id,
         at = now()](store::Tables& tables) -> Result<wire::Ack> {
            tables.people.setBand({person, tenths, by, at});
            return wire::Ack{};
        },
        [self = shared_from_this(), &member, offset] {
            member.bandOffsetDb = offset;
            self->touch(member);
            if (member.session)
                member.session->send(wire::Band{offset}, self->m_log.end());
        });
}

void Hall::on(Session& session, wire::PrivateWord& message)
{
    const auto found = m_members.find(message.person);
    if (found == m_members.end())
        return session.refuse(message.id, {"person-unknown", "Nobody of this group.", "person"});
    const Member& member = *found->second;
    if (!mayAddress(member.agreements, message.kind))
        return session.refuse(message.id, {"not-agreed", "This person has not agreed to be addressed so.", "kind"});
    const auto text = cleanLine(message.text, wire::kWordLength);
    if (!text)
        return session.refuse(message.id, {"text-empty", "Please write a word.", "text"});
    if (!member.session)
        return session.refuse(message.id, {"not-here", "This person is not here now.", "person"});
    // Said now or not at all: nothing is kept of it, and asked again it is said again only if it was not.
    const store::Hash payload = store::sha256(wire::encode(message));
    const auto said =
        std::find_if(m_words.begin(), m_words.end(), [&](const Said& word) { return word.id == message.id; });
    if (said != m_words.end() && said->payload != payload)
        return session.refuse(message.id, {"conflict", "This has been asked for before, in other words.", "id"});
    if (said == m_words.end()) {
        member.session->send(wire::WordHeard{message.kind, session.member()->name, *text}, m_log.end());
        m_words.push_back({message.id, payload});
        if (m_words.size() > kWordsRemembered)
            m_words.pop_front();
    }
    wire::Ack ack;
    ack.id = message.id;
    session.send(ack, m_log.end());
}

void Hall::on(Session& session, wire::Greet& message)
{
    Member& member = *session.member();
    if (!m_run.isOpen() || member.saidHello == message.on)
        return;
    member.saidHello = message.on;
    m_hereChanged = true;
}

void Hall::on(Session& session, wire::PeopleAsk&)
{
    wire::People people;
    const Member& asks = *session.member();
    for (const Member* each : m_bySeat) {
        const bool inClass = each && each != &asks && each->session && (kInClass & roleBit(each->session->role())) != 0;
        if (!inClass || !nameShownTo(Viewer::participant, asks.agreements) ||
            !nameShownTo(Viewer::participant, each->agreements))
            continue;
        if (people.names.size() < wire::kPeopleNamed)
            people.names.push_back(each->name);
        else
            ++people.more;
    }
    session.send(people, m_log.end(), net::Weight::bulk);
}

void Hall::on(Session& session, wire::Invite& message)
{
    // Not remembered with its answer: the token is a secret. Asked twice, there are two links; the unused one expires.
    onDisk(
        session, message.id,
        [group = m_group.id, role = message.role, by = session.member()->id,
         at = now()](store::Tables& tables) -> Result<wire::Ack> {
            wire::Ack ack;
            ack.token = tables.links.make(group, toStore(role), by, at).bytes;
            return ack;
        },
        [] {});
}

void Hall::on(Session& session, wire::SecondDevice& message)
{
    onDisk(
        session, message.id,
        [group = m_group.id, role = session.role(), person = session.member()->id,
         at = now()](store::Tables& tables) -> Result<wire::Ack> {
            wire::Ack ack;
            ack.token = tables.links.make(group, toStore(role), person, at, person, kSecondDeviceGoodFor).bytes;
            return ack;
        },
        [] {});
}

void Hall::on(Session& session, wire::DevicesAsk&)
{
    wire::Devices devices;
    for (const store::DeviceRow& row : session.member()->devices)
        devices.devices.push_back(ownDevice(row));
    session.send(devices, m_log.end());
}

void Hall::on(Session& session, wire::RevokeDevice& message)
{
    Member& member = *session.member();
    durably(
        session, message,
        [key = message.key, person = member.id, at = now()](store::Tables& tables) -> Result<wire::Ack> {
            const auto device = tables.devices.find(key);
            if (!device || device->person != person)
                return fail("device-unknown", "This is not one of your devices.", "key");
            if (auto revoked = tables.devices.revoke(key, at); !revoked)
                return tl::unexpected<Error>(revoked.error());
            return wire::Ack{};
        },
        [self = shared_from_this(), &member, key = message.key] { self->revoked(member, key); });
}

void Hall::revoked(Member& member, const wire::Key& key)
{
    for (store::DeviceRow& device : member.devices)
        if (device.key == key)
            device.revokedAt = now();
    if (member.session && member.session->key() == key)
        member.session->close(kCloseRevoked, "This device has been removed from the group.");
}

void Hall::on(Session& session, wire::UndoBinding& message)
{
    const auto found = m_members.find(message.person);
    if (found == m_members.end())
        return session.refuse(message.id, {"person-unknown", "Nobody of this group.", "person"});
    Member& member = *found->second;
    auto devices = std::make_shared<std::vector<store::DeviceRow>>();
    durably(
        session, message,
        [group = m_group.id, person = member.id, by = session.member()->id, devices,
         at = now()](store::Tables& tables) -> Result<wire::Ack> {
            const auto rows = tables.log.ofGroup(group, at - kBindingUndoable);
            const auto row = std::find_if(rows.rbegin(), rows.rend(), [&](const store::LogRow& each) {
                return each.what == kBindingLogged && each.target == person && !tables.log.isUndone(each.id);
            });
            if (row == rows.rend())
                return fail("nothing-to-undo", "No device was bound to this person in the last 7 days.");
            // The detail names the new key first, then those that it replaced.
            std::string_view keys = row->detail;
            for (bool first = true; keys.size() >= 64; first = false) {
                const auto bytes = bytesOfHex(keys.substr(0, 64));
                keys.remove_prefix(std::min<std::size_t>(keys.size(), 65));
                if (!bytes)
                    break;
                store::PublicKey key{};
                std::copy(bytes->begin(), bytes->end(), key.begin());
                if (auto changed = first ? tables.devices.revoke(key, at) : tables.devices.restore(key); !changed)
                    return tl::unexpected<Error>(changed.error());
            }
            tables.log.add({0, group, by, "binding-undone", person, {}, at, row->id});
            *devices = tables.devices.ofPerson(person);
            return wire::Ack{};
        },
        [self = shared_from_this(), &member, devices] {
            member.devices = *devices;
            if (member.session && !member.owns(member.session->key()))
                member.session->close(kCloseRevoked, "This device has been removed from the group.");
        });
}

} // namespace vh::hall
