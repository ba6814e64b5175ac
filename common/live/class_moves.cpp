#include "common/live/class_moves.h"

#include "common/live/class_step.h"

#include <algorithm>

namespace vh
{

namespace
{

bool clockMatters(const ClassState& state)
{
    return state.phase == Phase::running || state.phase == Phase::waiting;
}

/// Turn after turn, each from the moment the one before was over.
void runUntil(const ClassScript& script, ClassState& state, Instant until)
{
    while (state.phase == Phase::running && until - state.turnStartedAt >= state.turnLength) {
        const Instant over = state.turnStartedAt + state.turnLength;
        const auto next = nextTurn(script, state.place, state.leftOut);
        ++state.serial;
        if (next) {
            state.place = *next;
            state.turnSerial = state.serial;
            state.turnStartedAt = over;
            state.turnLength = turnAt(script, *next)->turn->planned;
        } else {
            state.phase = Phase::ended;
            state.turnSpent = state.turnLength;
            state.endedAt = over;
        }
    }
}

} // namespace

namespace step
{

Instant notBefore(const ClassState& state, Instant now)
{
    Instant latest = std::max(now, state.lease.lastSeen);
    if (state.phase == Phase::running)
        latest = std::max(latest, state.turnStartedAt);
    return latest;
}

void hold(ClassState& state, Phase phase, Instant at)
{
    if (state.phase == Phase::running)
        state.turnSpent = turnSpent(state, at);
    state.phase = phase;
    state.pressedSerial = ++state.serial;
}

void seen(ClassState& state, Instant at)
{
    state.lease.lastSeen = std::max(state.lease.lastSeen, at);
    state.silentSince.reset();
}

void moveTo(const ClassScript& script, ClassState& state, const Place& place, Instant at)
{
    state.phase = Phase::running;
    state.place = place;
    state.turnStartedAt = at;
    state.turnSpent = Millis{0};
    state.turnLength = turnAt(script, place)->turn->planned;
    state.pressedSerial = state.turnSerial = ++state.serial;
}

} // namespace step

ClassState openClass(const ClassScript& script, std::uint32_t revision, PersonId leader, std::vector<PersonId> standIns,
                     Instant now)
{
    ClassState state;
    state.revision = revision;
    state.leader = leader;
    state.standIns = std::move(standIns);
    state.lease = Lease{leader, 1, now};
    if (const auto first = turnAt(script, state.place))
        state.turnLength = first->turn->planned;
    return state;
}

ClassState tick(const ClassScript& script, const ClassState& state, Instant now)
{
    ClassState next = state;
    if (next.phase == Phase::ended)
        return next;
    const Instant calmAt = next.lease.lastSeen + kCalmPauseAfter;
    runUntil(script, next, std::min(now, calmAt));
    if (clockMatters(next) && now >= calmAt)
        step::hold(next, Phase::calmPause, calmAt);
    // Nobody is missed any more once the class is over.
    if (std::min(now, next.endedAt.value_or(now)) - next.lease.lastSeen >= kSilentAfter)
        next.silentSince = next.lease.lastSeen;
    return next;
}

std::optional<Instant> nextChangeAt(const ClassState& state)
{
    std::optional<Instant> soonest;
    const auto consider = [&soonest](Instant at) { soonest = std::min(soonest.value_or(at), at); };
    if (state.phase == Phase::ended)
        return soonest;
    if (!state.silentSince)
        consider(state.lease.lastSeen + kSilentAfter);
    if (state.phase == Phase::running)
        consider(state.turnStartedAt + state.turnLength);
    if (clockMatters(state))
        consider(state.lease.lastSeen + kCalmPauseAfter);
    return soonest;
}

Instant expectedEnd(const ClassScript& script, const ClassState& state, Instant now)
{
    if (state.endedAt)
        return *state.endedAt;
    const auto next = nextTurn(script, state.place, state.leftOut);
    const Millis afterThisTurn = next ? plannedFrom(script, *next, state.leftOut) : Millis{0};
    if (state.phase == Phase::running)
        return state.turnStartedAt + state.turnLength + afterThisTurn;
    return now + (state.turnLength - state.turnSpent) + afterThisTurn;
}

Millis behindPlan(const ClassScript& script, const ClassState& state, Instant now)
{
    return expectedEnd(script, state, now) - (state.startedAt.value_or(now) + plannedLength(script));
}

Millis turnSpent(const ClassState& state, Instant now)
{
    if (state.phase != Phase::running)
        return state.turnSpent;
    return std::clamp(now - state.turnStartedAt, Millis{0}, state.turnLength);
}

HomeLine homeLine(const ClassState& state)
{
    if (state.phase == Phase::ended)
        return HomeLine::ended;
    if (state.phase == Phase::notStarted)
        return HomeLine::classNotStarted;
    if (state.phase == Phase::calmPause)
        return HomeLine::calmPause;
    if (state.silentSince)
        return HomeLine::leaderAway;
    if (state.phase == Phase::waiting)
        return HomeLine::classWaits;
    return state.lease.holder == state.leader ? HomeLine::classRuns : HomeLine::standInLeads;
}

} // namespace vh
