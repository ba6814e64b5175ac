// Devices and one-time links: what lets somebody in.
#include "server/store/statements.h"
#include "server/store/tables.h"

namespace vh::store
{

namespace
{

DeviceRow readDevice(const Query& row)
{
    return {row.array<32>(0), row.id<PersonId>(1), row.text(2), row.instant(3), row.instant(4), row.maybeInstant(5)};
}

Result<void> orDeviceUnknown(int changed)
{
    if (changed == 0)
        return fail("device-unknown", "There is no such device.");
    return {};
}

struct LinkRow {
    GroupId group;
    Role role{};
    std::optional<PersonId> forPerson;
    Instant expiresAt{};
    bool used = false;
    std::optional<PublicKey> usedBy;
};

LinkRow readLink(const Query& row)
{
    return {row.id<GroupId>(0), row.value<Role>(1), row.maybeId<PersonId>(2),
            row.instant(3),     !row.isNull(4),     row.maybeHash(5)};
}

} // namespace

Result<DeviceRow> Devices::bind(PersonId person, const PublicKey& key, const std::string& label, Instant now)
{
    const DeviceRow device{key, person, label, now, now, std::nullopt};
    if (m_statements->exec("INSERT INTO devices VALUES (?, ?, ?, ?, ?, NULL) ON CONFLICT DO NOTHING", key, person,
                           label, now, now) == 0)
        return fail("key-in-use", "This device's key is already bound. Make a new one.");
    return device;
}

std::optional<DeviceRow> Devices::find(const PublicKey& key) const
{
    return m_statements->row(readDevice, "SELECT * FROM devices WHERE key = ?", key);
}

std::vector<DeviceRow> Devices::ofPerson(PersonId person) const
{
    return m_statements->rows(readDevice, "SELECT * FROM devices WHERE person = ? ORDER BY since, key", person);
}

void Devices::seen(const PublicKey& key, Instant now)
{
    m_statements->exec("UPDATE devices SET last_seen = ? WHERE key = ?", now, key);
}

Result<void> Devices::revoke(const PublicKey& key, Instant now)
{
    return orDeviceUnknown(
        m_statements->exec("UPDATE devices SET revoked_at = coalesce(revoked_at, ?) WHERE key = ?", now, key));
}

Result<void> Devices::restore(const PublicKey& key)
{
    return orDeviceUnknown(m_statements->exec("UPDATE devices SET revoked_at = NULL WHERE key = ?", key));
}

LinkToken Links::make(GroupId group, Role role, std::optional<PersonId> madeBy, Instant now,
                      std::optional<PersonId> forPerson, Millis goodFor)
{
    const LinkToken token = randomBits128();
    m_statements->exec("INSERT INTO links VALUES (?, ?, ?, ?, ?, ?, NULL, NULL)", sha256(token.bytes), group, role,
                       madeBy, forPerson, now + goodFor);
    return token;
}

Result<PersonRow> Links::redeem(const LinkToken& token, const std::string& name, const PublicKey& key,
                                const std::string& label, Instant now)
{
    const Hash hash = sha256(token.bytes);
    const auto link = m_statements->row(
        readLink, "SELECT group_id, role, for_person, expires_at, used_at, used_by FROM links WHERE token_hash = ?",
        hash);
    if (!link)
        return fail("link-unknown", "This link is not one of this relay's. Ask for a new one.");
    People people(*m_statements);
    Devices devices(*m_statements);
    if (link->used) {
        // The device that came by it asks again: the answer was lost on the way.
        const auto device = link->usedBy == key ? devices.find(key) : std::nullopt;
        const auto before = device && !device->revokedAt ? people.byId(device->person) : std::nullopt;
        if (before && !before->removedAt)
            return *before;
        return fail("link-used", "This link has been used. Ask for a new one.");
    }
    if (now >= link->expiresAt)
        return fail("link-expired", "This link is too old. Ask for a new one.");

    auto person = link->forPerson ? people.byId(*link->forPerson) : std::nullopt;
    if (link->forPerson && (!person || person->removedAt))
        return fail("person-unknown", "The person this link was made for has left the group.");
    if (!person) {
        auto added = people.add(link->group, name, link->role, now);
        if (!added)
            return added;
        person = *added;
    }
    people.grant(person->id, link->role);
    if (const auto device = devices.bind(person->id, key, label, now); !device)
        return tl::unexpected(device.error());
    m_statements->exec("UPDATE links SET used_at = ?, used_by = ? WHERE token_hash = ?", now, key, hash);
    return *person;
}

} // namespace vh::store
