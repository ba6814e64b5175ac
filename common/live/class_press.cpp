#include "common/live/class_moves.h"
#include "common/live/class_step.h"

#include <algorithm>

namespace vh
{

namespace
{

enum class Unit : std::uint8_t { turn, round, step };

bool sameUnit(Unit unit, const Place& a, const Place& b)
{
    switch (unit) {
    case Unit::turn:
        return a == b;
    case Unit::round:
        return roundStart(a) == roundStart(b);
    case Unit::step:
        break;
    }
    return stepStart(a) == stepStart(b);
}

/// Where the class was when the leader pressed: since then only the clock has moved, one turn for every serial.
Place placeSeen(const ClassScript& script, const ClassState& state, std::uint32_t seenSerial)
{
    Place place = state.place;
    for (std::uint32_t serial = state.serial; serial > seenSerial; --serial) {
        const auto previous = previousTurn(script, place, state.leftOut);
        if (!previous)
            break;
        place = *previous;
    }
    return place;
}

/// Whether the press still means something: the class is in the round (step) she saw, or has only just left it.
bool inReach(const ClassScript& script, const ClassState& state, Unit unit, const Place& seen, Instant now)
{
    Place place = state.place;
    Instant began = state.turnStartedAt;
    while (!sameUnit(unit, place, seen)) {
        if (now - began > kPressGrace)
            return false;
        const auto previous = previousTurn(script, place, state.leftOut);
        if (!previous)
            return false;
        place = *previous;
        began -= turnAt(script, place)->turn->planned;
    }
    return true;
}

Refusal start(const ClassScript& script, ClassState& state, Instant at)
{
    if (state.phase != Phase::notStarted || !turnAt(script, Place{}))
        return Refusal::notNow;
    state.startedAt = at;
    step::moveTo(script, state, Place{}, at);
    return Refusal::none;
}

Refusal wait(ClassState& state, Instant at)
{
    if (state.phase != Phase::running && state.phase != Phase::calmPause)
        return Refusal::notNow;
    step::hold(state, Phase::waiting, at);
    return Refusal::none;
}

Refusal resume(ClassState& state, Instant at)
{
    if (state.phase != Phase::waiting && state.phase != Phase::calmPause)
        return Refusal::notNow;
    state.phase = Phase::running;
    state.turnStartedAt = at - state.turnSpent;
    state.turnSpent = Millis{0};
    state.pressedSerial = ++state.serial;
    return Refusal::none;
}

Refusal end(ClassState& state, Instant at)
{
    step::hold(state, Phase::ended, at);
    state.endedAt = at;
    return Refusal::none;
}

Refusal move(const ClassScript& script, ClassState& state, const Command& command, Instant at)
{
    if (state.phase == Phase::notStarted)
        return Refusal::notNow;
    const Place seen = placeSeen(script, state, command.seenSerial);
    const Unit unit = command.kind == CommandKind::skip ? Unit::step : Unit::round;
    if (!inReach(script, state, unit, seen, at))
        return Refusal::oldPlace;

    if (command.kind == CommandKind::goOn || command.kind == CommandKind::skip) {
        const auto target =
            unit == Unit::step ? nextStep(script, seen, state.leftOut) : nextRound(script, seen, state.leftOut);
        if (!target)
            return Refusal::notNow;
        if (state.place < *target)
            step::moveTo(script, state, *target, at);
    } else if (command.kind == CommandKind::back) {
        step::moveTo(script, state, previousRound(script, seen, state.leftOut).value_or(roundStart(seen)), at);
    } else {
        step::moveTo(script, state, roundStart(seen), at);
    }
    return Refusal::none;
}

Refusal carryOut(const ClassScript& script, ClassState& state, const Command& command, Instant at)
{
    switch (command.kind) {
    case CommandKind::start:
        return start(script, state, at);
    case CommandKind::wait:
        return wait(state, at);
    case CommandKind::resume:
        return resume(state, at);
    case CommandKind::end:
        return end(state, at);
    case CommandKind::goOn:
    case CommandKind::back:
    case CommandKind::onceMore:
    case CommandKind::skip:
        return move(script, state, command, at);
    case CommandKind::jump:
        return step::jump(script, state, command, at);
    case CommandKind::stretch: {
        const Place seen = placeSeen(script, state, command.seenSerial);
        return step::stretch(script, state, command, seen, inReach(script, state, Unit::turn, seen, at), at);
    }
    case CommandKind::leaveOut:
        return step::leaveOut(script, state, command);
    }
    return Refusal::notNow;
}

} // namespace

Outcome apply(const ClassScript& script, const ClassState& state, const Command& command, Instant now)
{
    const Instant at = step::notBefore(state, now);
    Outcome outcome{Refusal::none, tick(script, state, at), false};
    ClassState& next = outcome.state;
    const auto refuse = [&outcome](Refusal why) {
        outcome.refusal = why;
        return outcome;
    };
    if (command.by != next.lease.holder)
        return refuse(Refusal::notLeader);
    if (command.leaseEpoch != next.lease.epoch)
        return refuse(Refusal::oldLease);
    if (command.seenSerial < next.pressedSerial || command.seenSerial > next.serial)
        return refuse(Refusal::oldPlace);
    if (next.phase == Phase::ended)
        return refuse(Refusal::notNow);

    step::seen(next, at);
    const std::uint32_t before = next.serial;
    outcome.refusal = carryOut(script, next, command, at);
    outcome.moved = next.serial != before;
    return outcome;
}

} // namespace vh
