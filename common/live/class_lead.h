#pragma once
// Who leads the class, and what happens when the leader vanishes. After 3 s without a sign of life homes say so; after
// 30 s the clock is held (calm pause); a named stand-in takes the place with one key; the returning leader finds the
// class where it is and may take it back. Pure functions; each brings the state up to `now` first.
#include "common/live/class_moves.h"

namespace vh
{

/// The three roles of a group. `moderator` is the helper; a stand-in is a person named by the leader, whatever the
/// role.
enum class Role : std::uint8_t { leader, participant, moderator };

/// A sign of life of `who`; only the holder's counts. The clock stays held after a calm pause until she goes on.
[[nodiscard]] ClassState leaderSeen(const ClassScript& script, const ClassState& state, PersonId who, Instant now);

/// none: may take the place now. notNow: only once the holder is silent. notLeader: never.
/// The class's own leader and the holder (on another device) may always; other leaders of the group and named stand-ins
/// may when the holder is silent.
[[nodiscard]] Refusal mayTake(const ClassState& state, PersonId who, Role role);

/// Takes the place: a new lease epoch. The class stays as it is, a calm pause too.
[[nodiscard]] Outcome takePlace(const ClassScript& script, const ClassState& state, PersonId who, Role role,
                                Instant now);
/// The holder hands the place to the class's leader or to a named stand-in.
[[nodiscard]] Outcome handOver(const ClassScript& script, const ClassState& state, PersonId by,
                               std::uint32_t leaseEpoch, PersonId to, Instant now);

std::string_view nameOf(Role role);
std::optional<Role> roleOf(std::string_view name);

} // namespace vh
