#include "common/live/place.h"

#include <algorithm>
#include <cstddef>

namespace vh
{

namespace
{

const Section* sectionAt(const ClassScript& script, const Place& place)
{
    return place.section < script.sections.size() ? &script.sections[place.section] : nullptr;
}

const Round* roundAt(const ClassScript& script, const Place& place)
{
    const Step* step = stepAt(script, stepOf(place));
    return step && place.round < step->rounds.size() ? &step->rounds[place.round] : nullptr;
}

std::uint16_t lastOf(std::size_t count)
{
    return static_cast<std::uint16_t>(count - 1);
}

/// The step after, left out or not.
std::optional<Place> stepAfter(const ClassScript& script, const Place& place)
{
    if (!turnAt(script, place))
        return std::nullopt;
    Place next = stepStart(place);
    ++next.step;
    if (turnAt(script, next))
        return next;
    next = Place{place.section, 0, 0, 0};
    ++next.section;
    return turnAt(script, next) ? std::optional(next) : std::nullopt;
}

/// The last round of the step before, left out or not.
std::optional<Place> stepBefore(const ClassScript& script, const Place& place)
{
    Place previous = stepStart(place);
    if (place.step > 0) {
        --previous.step;
    } else if (place.section > 0) {
        --previous.section;
        previous.step = lastOf(script.sections[previous.section].steps.size());
    } else {
        return std::nullopt;
    }
    if (const Step* step = stepAt(script, stepOf(previous)))
        previous.round = lastOf(step->rounds.size());
    return turnAt(script, previous) ? std::optional(previous) : std::nullopt;
}

} // namespace

bool isLeftOut(std::span<const StepAt> leftOut, StepAt step)
{
    return std::ranges::binary_search(leftOut, step);
}

const Step* stepAt(const ClassScript& script, StepAt step)
{
    const Section* section = sectionAt(script, startOf(step));
    return section && step.step < section->steps.size() ? &section->steps[step.step] : nullptr;
}

std::optional<TurnAt> turnAt(const ClassScript& script, const Place& place)
{
    const Round* round = roundAt(script, place);
    if (!round || place.turn >= round->turns.size())
        return std::nullopt;
    return TurnAt{sectionAt(script, place), stepAt(script, stepOf(place)), round, &round->turns[place.turn]};
}

std::optional<Place> nextTurn(const ClassScript& script, const Place& place, std::span<const StepAt> leftOut)
{
    Place next = place;
    ++next.turn;
    const bool goesOn = turnAt(script, next) && !isLeftOut(leftOut, stepOf(place));
    return goesOn ? std::optional(next) : nextRound(script, place, leftOut);
}

std::optional<Place> nextRound(const ClassScript& script, const Place& place, std::span<const StepAt> leftOut)
{
    Place next = roundStart(place);
    ++next.round;
    const bool goesOn = turnAt(script, next) && !isLeftOut(leftOut, stepOf(place));
    return goesOn ? std::optional(next) : nextStep(script, place, leftOut);
}

std::optional<Place> nextStep(const ClassScript& script, const Place& place, std::span<const StepAt> leftOut)
{
    auto next = stepAfter(script, place);
    while (next && isLeftOut(leftOut, stepOf(*next)))
        next = stepAfter(script, *next);
    return next;
}

std::optional<Place> previousTurn(const ClassScript& script, const Place& place, std::span<const StepAt> leftOut)
{
    if (!turnAt(script, place))
        return std::nullopt;
    Place previous = place;
    if (place.turn > 0 && !isLeftOut(leftOut, stepOf(place))) {
        --previous.turn;
        return previous;
    }
    const auto start = previousRound(script, place, leftOut);
    if (!start)
        return std::nullopt;
    previous = *start;
    previous.turn = lastOf(turnAt(script, previous)->round->turns.size());
    return previous;
}

std::optional<Place> previousRound(const ClassScript& script, const Place& place, std::span<const StepAt> leftOut)
{
    if (!turnAt(script, place))
        return std::nullopt;
    if (place.round > 0 && !isLeftOut(leftOut, stepOf(place))) {
        Place previous = roundStart(place);
        --previous.round;
        return previous;
    }
    auto previous = stepBefore(script, place);
    while (previous && isLeftOut(leftOut, stepOf(*previous)))
        previous = stepBefore(script, *previous);
    return previous;
}

Millis plannedFrom(const ClassScript& script, const Place& place, std::span<const StepAt> leftOut)
{
    Millis sum{0};
    std::optional<Place> at = place;
    if (isLeftOut(leftOut, stepOf(place)))
        at = nextStep(script, place, leftOut);
    for (; at; at = nextTurn(script, *at, leftOut)) {
        const auto here = turnAt(script, *at);
        if (!here)
            break;
        sum += here->turn->planned;
    }
    return sum;
}

Millis plannedLength(const ClassScript& script, std::span<const StepAt> leftOut)
{
    return plannedFrom(script, Place{}, leftOut);
}

Millis plannedLength(const Step& step)
{
    Millis sum{0};
    for (const Round& round : step.rounds)
        for (const Turn& turn : round.turns)
            sum += turn.planned;
    return sum;
}

Millis plannedLengthOf(const ClassScript& script, std::size_t section, std::span<const StepAt> leftOut)
{
    Millis sum{0};
    StepAt at{static_cast<std::uint16_t>(section), 0};
    for (; const Step* step = stepAt(script, at); ++at.step)
        if (!isLeftOut(leftOut, at))
            sum += plannedLength(*step);
    return sum;
}

} // namespace vh
