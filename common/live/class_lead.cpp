#include "common/live/class_lead.h"

#include "common/live/class_step.h"

#include <algorithm>

namespace vh
{

namespace
{

bool isStandIn(const ClassState& state, PersonId who)
{
    return std::find(state.standIns.begin(), state.standIns.end(), who) != state.standIns.end();
}

void giveTo(ClassState& state, PersonId who, Instant at)
{
    state.lease.holder = who;
    ++state.lease.epoch;
    step::seen(state, at);
}

} // namespace

ClassState leaderSeen(const ClassScript& script, const ClassState& state, PersonId who, Instant now)
{
    const Instant at = step::notBefore(state, now);
    ClassState next = tick(script, state, at);
    if (who == next.lease.holder && next.phase != Phase::ended)
        step::seen(next, at);
    return next;
}

Refusal mayTake(const ClassState& state, PersonId who, Role role)
{
    const bool always = who == state.leader || who == state.lease.holder;
    if (!always && role != Role::leader && !isStandIn(state, who))
        return Refusal::notLeader;
    if (state.phase == Phase::ended || (!always && !state.silentSince))
        return Refusal::notNow;
    return Refusal::none;
}

Outcome takePlace(const ClassScript& script, const ClassState& state, PersonId who, Role role, Instant now)
{
    const Instant at = step::notBefore(state, now);
    Outcome outcome{Refusal::none, tick(script, state, at), false};
    outcome.refusal = mayTake(outcome.state, who, role);
    if (outcome.refusal == Refusal::none)
        giveTo(outcome.state, who, at);
    return outcome;
}

Outcome handOver(const ClassScript& script, const ClassState& state, PersonId by, std::uint32_t leaseEpoch, PersonId to,
                 Instant now)
{
    const Instant at = step::notBefore(state, now);
    Outcome outcome{Refusal::none, tick(script, state, at), false};
    ClassState& next = outcome.state;
    if (by != next.lease.holder || (to != next.leader && !isStandIn(next, to)))
        outcome.refusal = Refusal::notLeader;
    else if (leaseEpoch != next.lease.epoch)
        outcome.refusal = Refusal::oldLease;
    else if (next.phase == Phase::ended)
        outcome.refusal = Refusal::notNow;
    else
        giveTo(next, to, at);
    return outcome;
}

} // namespace vh
