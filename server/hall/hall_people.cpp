// Each person's own matters: agreements, contact, today's voice, readings and results, devices, links.
#include "common/wire/binary.h"
#include "server/hall/hall_store.h"

#include <algorithm>
#include <cmath>

namespace vh::hall
{

namespace
{

/// No voice is a hundred decibels from its usual level, and nothing longer than an hour is one turn.
bool canBe(const TurnResult& result)
{
    const Reading& reading = result.reading;
    constexpr std::uint32_t kHourMs = 3'600'000;
    const auto isLevel = [](float decibels) { return std::abs(decibels) <= 200; }; // false for NaN
    return isLevel(reading.leqOverUsualDb) && isLevel(reading.nowOverUsualDb) && isLevel(result.around.leakDb) &&
           reading.trustPercent <= 100 && reading.voicedMs <= reading.heardMs && reading.heardMs <= reading.elapsedMs &&
           reading.elapsedMs <= kHourMs;
}

/// What one device row means for the person who owns it.
wire::OwnDevice ownDevice(const store::DeviceRow& row)
{
    return {row.key, row.label, row.since, row.revokedAt.has_value()};
}

/// A home may hear of the end of a turn this much late.
constexpr Millis kTurnSlack{2'000};
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
    }
    const bool eraseResults = message.kind == AgreementKind::resultsKept && !wanted.resultsKept;
    const bool eraseName = message.kind == AgreementKind::attendanceNamed && !wanted.attendanceNamed;
    durably(
        session, message,
        [person = member.id, kind = message.kind, value = message.value, wording = message.wording, key = session.key(),
         eraseResults, eraseName, group = m_group.id, at = now()](store::Tables& tables) -> Result<wire::Ack> {
            if (auto added = tables.agreements.add({person, toStore(kind), value, static_cast<int>(wording), key, at});
                !added)
                return tl::unexpected<Error>(added.error());
            if (eraseResults)
                tables.results.eraseOf(person);
            if (const auto open = tables.classes.openOf(group); open && eraseName)
                tables.classes.eraseName(open->id, person);
            return wire::Ack{};
        },
        [self = shared_from_this(), &member, kind = message.kind, value = message.value] {
            (void)setValue(member.agreements, kind, value);
            if (std::find(member.answered.begin(), member.answered.end(), kind) == member.answered.end())
                member.answered.push_back(kind);
            self->touch(member);
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
        [&member, where, ring] {
            member.where = where;
            member.ring = ring;
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

void Hall::reading(Session& session, std::span<const std::uint8_t> frame)
{
    Member& member = *session.member();
    const auto reading = wire::decodeReading(frame);
    if (!reading)
        return session.close(wire::CloseCode::policy, reading.error().message);
    // Dropped unless an agreement is on disk, the turn is on, and the rules are ours.
    if (!readingsGoUp(member.agreements) || !m_run.isOpen() || reading->turnSerial != m_run.state().turnSerial ||
        reading->judgeVersion != kJudgeVersion)
        return;
    member.reading = *reading;
    m_roster.touch(member.seat);
}

void Hall::on(Session& session, wire::TurnDone& message)
{
    Member& member = *session.member();
    const TurnResult& result = message.result;
    const ClassRun::Turn* turn = m_run.isOpen() ? m_run.turnOf(result.reading.turnSerial) : nullptr;
    if (!canBe(result))
        return session.refuse(message.id, {"result-impossible", "These numbers cannot be of one turn.", {}});
    const bool mayCome = resultsGoUp(member.agreements) && result.reading.judgeVersion == kJudgeVersion &&
                         (!turn || Millis{result.reading.elapsedMs} <= turn->length + kTurnSlack);
    wire::Ack ack;
    ack.id = message.id;
    if (!turn || !mayCome)
        return session.send(ack, m_log.end()); // nothing to keep and nothing to show
    judgeTurn(member, result, *turn);
    if (!member.agreements.resultsKept)
        return session.send(ack, m_log.end());
    store::TurnResultRow row;
    row.person = member.id;
    row.classId = m_run.about().classId;
    row.turnSerial = result.reading.turnSerial;
    row.sectionKind = nameOf(turn->section);
    row.voiced = Millis{result.reading.voicedMs};
    if (result.reading.voicedMs > 0)
        row.leqOverUsualTenthsDb = static_cast<int>(std::lround(result.reading.leqOverUsualDb * 10));
    row.standing = nameOf(member.judge.standing);
    row.blank = result.reading.reason == Blank::none
                    ? std::string()
                    : std::string(wire::WireNames<Blank>::kNames[static_cast<std::size_t>(result.reading.reason)]);
    row.judgeVersion = result.reading.judgeVersion;
    row.at = now();
    durably(
        session, message,
        [row](store::Tables& tables) -> Result<wire::Ack> {
            // The agreement may have been taken back while this waited.
            if (tables.agreements.valueOf(row.person, store::AgreementKind::resultsKept) == "yes")
                tables.results.put(row);
            return wire::Ack{};
        },
        [] {});
}

void Hall::judgeTurn(Member& member, const TurnResult& result, const ClassRun::Turn& turn)
{
    const std::uint32_t before = member.judge.lastTurnSerial;
    member.judge = judge(member.judge, {result, turn.kind, turn.section, turn.length, member.bandOffsetDb});
    if (!readingsGoUp(member.agreements))
        return; // kept for themselves: no part of what anybody else is shown
    if (member.judge.lastTurnSerial != before && turn.kind == TurnKind::yours) {
        ++m_summary.judgedTurns;
        m_summary.easyTurns += member.judge.standing == Standing::inBand;
        m_summary.cantTellTurns += member.judge.standing == Standing::cantTell;
    }
    member.reading = result.reading;
    m_roster.touch(member.seat);
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
