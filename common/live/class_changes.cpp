// Changes of what is planned while it is led: jump, more time, steps left out, a corrected script, and a place that a
// relay had lost.
#include "common/live/class_step.h"

#include <algorithm>

namespace vh
{

namespace
{

bool mayGo(const ClassScript& script, StepAt step)
{
    const Step* there = stepAt(script, step);
    return there && there->optionalDearness;
}

bool isComing(const ClassState& state, StepAt step)
{
    return step > stepOf(state.place);
}

LeftOut inOrder(LeftOut steps)
{
    std::ranges::sort(steps);
    steps.erase(std::unique(steps.begin(), steps.end()), steps.end());
    return steps;
}

bool sameSteps(const ClassScript& a, const ClassScript& b)
{
    return std::ranges::equal(a.sections, b.sections, [](const Section& one, const Section& other) {
        return one.steps.size() == other.steps.size();
    });
}

/// Whether the class went, up to this turn, the same way in both: the same places, and what was done there.
bool samePast(const ClassScript& a, const ClassScript& b, const Place& place)
{
    for (std::optional<Place> at = Place{}; at && *at <= place;) {
        const auto one = turnAt(a, *at);
        const auto other = turnAt(b, *at);
        if (!one || !other || one->section->kind != other->section->kind ||
            one->round->moreVoice != other->round->moreVoice || one->turn->kind != other->turn->kind)
            return false;
        const auto next = nextTurn(a, *at);
        if (*at < place && next != nextTurn(b, *at))
            return false;
        at = next;
    }
    return true;
}

} // namespace

namespace step
{

Refusal jump(const ClassScript& script, ClassState& state, const Command& command, Instant at)
{
    if (state.phase == Phase::notStarted)
        return Refusal::notNow;
    if (!command.to || !turnAt(script, startOf(*command.to)))
        return Refusal::noStep;
    std::erase(state.leftOut, *command.to);
    moveTo(script, state, startOf(*command.to), at);
    return Refusal::none;
}

Refusal stretch(const ClassScript& script, ClassState& state, const Command& command, const Place& seen, bool inReach,
                Instant at)
{
    if (state.phase == Phase::notStarted || command.more <= Millis{0} || command.more > kMostMore)
        return Refusal::notNow;
    if (!inReach)
        return Refusal::oldPlace;
    if (state.place != seen) {
        moveTo(script, state, seen, at);
        state.turnLength = command.more;
        return Refusal::none;
    }
    if (state.turnLength + command.more > kLongestTurn)
        return Refusal::notNow;
    state.turnLength += command.more;
    state.pressedSerial = ++state.serial;
    return Refusal::none;
}

Refusal leaveOut(const ClassScript& script, ClassState& state, const Command& command)
{
    LeftOut next = command.leftOut;
    for (const StepAt step : next) {
        if (!mayGo(script, step))
            return Refusal::noStep;
        if (!isComing(state, step))
            return Refusal::oldPlace;
    }
    for (const StepAt step : state.leftOut)
        if (!isComing(state, step))
            next.push_back(step);
    next = inOrder(std::move(next));
    if (next.size() > kMostLeftOut)
        return Refusal::notNow;
    if (next == state.leftOut)
        return Refusal::none;
    state.leftOut = std::move(next);
    state.pressedSerial = ++state.serial;
    return Refusal::none;
}

} // namespace step

Outcome reassert(const ClassScript& script, const ClassState& state, PersonId who, std::uint32_t leaseEpoch,
                 const Seen& seen, Instant now)
{
    const Instant at = step::notBefore(state, now);
    Outcome outcome{Refusal::none, tick(script, state, at), false};
    ClassState& next = outcome.state;
    if (who != next.lease.holder) {
        outcome.refusal = Refusal::notLeader;
    } else if (leaseEpoch != next.lease.epoch) {
        outcome.refusal = Refusal::oldLease;
    } else if (next.phase == Phase::ended) {
        outcome.refusal = Refusal::notNow;
    } else if (seen.serial <= next.serial || seen.serial - next.serial > kMostSerialsLost ||
               !turnAt(script, seen.place)) {
        outcome.refusal = Refusal::oldPlace;
    } else {
        step::seen(next, at);
        next.serial = seen.serial; // moveTo makes it one more: a new change, later than all she saw
        next.startedAt = next.startedAt.value_or(at);
        next.leftOut = inOrder(seen.leftOut);
        std::erase_if(next.leftOut, [&](StepAt step) { return !mayGo(script, step) || step == stepOf(seen.place); });
        next.leftOut.resize(std::min(next.leftOut.size(), kMostLeftOut));
        step::moveTo(script, next, seen.place, at);
        outcome.moved = true;
    }
    return outcome;
}

Outcome revise(const ClassScript& old, const ClassScript& script, const ClassState& state, const Revision& revision,
               Instant now)
{
    const Instant at = step::notBefore(state, now);
    Outcome outcome{Refusal::none, tick(old, state, at), false};
    ClassState& next = outcome.state;
    if (revision.by != next.lease.holder) {
        outcome.refusal = Refusal::notLeader;
    } else if (revision.leaseEpoch != next.lease.epoch) {
        outcome.refusal = Refusal::oldLease;
    } else if (next.phase == Phase::ended) {
        outcome.refusal = Refusal::notNow;
    } else if (revision.of != next.revision) {
        outcome.refusal = Refusal::oldScript;
    } else if (!turnAt(script, next.place) || (next.phase != Phase::notStarted && !samePast(old, script, next.place))) {
        outcome.refusal = Refusal::otherPast;
    } else {
        step::seen(next, at);
        ++next.revision;
        const Millis longer = turnAt(script, next.place)->turn->planned - turnAt(old, next.place)->turn->planned;
        // A turn that has already lasted longer than it now should is over at once, not in the past.
        next.turnLength = std::max(next.turnLength + longer, turnSpent(next, at));
        const bool stand = sameSteps(old, script);
        std::erase_if(next.leftOut,
                      [&](StepAt step) { return isComing(next, step) && (!stand || !mayGo(script, step)); });
        next.pressedSerial = ++next.serial;
        outcome.moved = true;
    }
    return outcome;
}

} // namespace vh
