#pragma once
// Who somebody is within one group. A role belongs to (person, group), never to a link or a field of a message. Values.
#include <cstdint>

namespace vh
{

/// `standIn` may take the place when the leader's line is lost, and never sees levels. In words on screens,
/// `moderator` is "helper".
enum class Role : std::uint8_t { participant, moderator, leader, standIn };

/// A set of roles, as bits.
using RoleSet = std::uint8_t;
constexpr RoleSet roleBit(Role role)
{
    return static_cast<RoleSet>(1U << static_cast<unsigned>(role));
}
template <class... Roles>
constexpr RoleSet rolesOf(Roles... roles)
{
    return static_cast<RoleSet>((0U | ... | roleBit(roles)));
}
constexpr RoleSet kEveryRole = rolesOf(Role::participant, Role::moderator, Role::leader, Role::standIn);

} // namespace vh
