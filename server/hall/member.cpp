#include "server/hall/member.h"

#include "server/hall/shown_text.h"

#include <algorithm>

namespace vh::hall
{

Role Member::foremost() const
{
    for (const Role role : {Role::leader, Role::moderator, Role::standIn})
        if (has(role))
            return role;
    return Role::participant;
}

bool Member::owns(const wire::Key& key) const
{
    return std::any_of(devices.begin(), devices.end(),
                       [&](const store::DeviceRow& device) { return device.key == key && !device.revokedAt; });
}

Role fromStore(store::Role role)
{
    switch (role) {
    case store::Role::leader:
        return Role::leader;
    case store::Role::helper:
        return Role::moderator;
    case store::Role::standIn:
        return Role::standIn;
    case store::Role::participant:
        break;
    }
    return Role::participant;
}

store::Role toStore(Role role)
{
    switch (role) {
    case Role::leader:
        return store::Role::leader;
    case Role::moderator:
        return store::Role::helper;
    case Role::standIn:
        return store::Role::standIn;
    case Role::participant:
        break;
    }
    return store::Role::participant;
}

// Both enumerations are in the order of the words' table; the test of the hall walks all of them by name.
store::AgreementKind toStore(AgreementKind kind)
{
    return static_cast<store::AgreementKind>(kind);
}

AgreementKind fromStore(store::AgreementKind kind)
{
    return static_cast<AgreementKind>(kind);
}

void addTo(Member& member, const store::PersonState& state)
{
    for (const store::Role role : state.roles)
        member.roles |= roleBit(fromStore(role));
    for (const store::DeviceRow& device : state.devices) {
        const auto same = std::find_if(member.devices.begin(), member.devices.end(),
                                       [&](const store::DeviceRow& each) { return each.key == device.key; });
        if (same == member.devices.end())
            member.devices.push_back(device);
        else if (device.revokedAt)
            same->revokedAt = device.revokedAt;
    }
}

Member memberOf(const store::PersonState& state)
{
    Member member;
    member.id = state.person.id;
    member.name = state.person.name;
    member.skeleton = skeletonOf(member.name);
    member.seat = static_cast<std::uint16_t>(state.person.seat.value_or(0));
    for (const store::Role role : state.roles)
        member.roles |= roleBit(fromStore(role));
    member.devices = state.devices;
    for (const store::AgreementRow& row : state.agreements) {
        const AgreementKind kind = fromStore(row.kind);
        if (setValue(member.agreements, kind, row.value))
            member.answered.push_back(kind);
    }
    if (state.band)
        member.bandOffsetDb = static_cast<float>(state.band->offsetTenthsDb) / 10.0F;
    return member;
}

} // namespace vh::hall
