#include "common/live/place.h"

#include <cstddef>

namespace vh
{

namespace
{

const Section* sectionAt(const ClassScript& script, const Place& place)
{
    return place.section < script.sections.size() ? &script.sections[place.section] : nullptr;
}

const Step* stepAt(const ClassScript& script, const Place& place)
{
    const Section* section = sectionAt(script, place);
    return section && place.step < section->steps.size() ? &section->steps[place.step] : nullptr;
}

const Round* roundAt(const ClassScript& script, const Place& place)
{
    const Step* step = stepAt(script, place);
    return step && place.round < step->rounds.size() ? &step->rounds[place.round] : nullptr;
}

std::uint16_t lastOf(std::size_t count)
{
    return static_cast<std::uint16_t>(count - 1);
}

} // namespace

std::optional<TurnAt> turnAt(const ClassScript& script, const Place& place)
{
    const Round* round = roundAt(script, place);
    if (!round || place.turn >= round->turns.size())
        return std::nullopt;
    return TurnAt{sectionAt(script, place), stepAt(script, place), round, &round->turns[place.turn]};
}

std::optional<Place> nextTurn(const ClassScript& script, const Place& place)
{
    Place next = place;
    ++next.turn;
    return turnAt(script, next) ? std::optional(next) : nextRound(script, place);
}

std::optional<Place> nextRound(const ClassScript& script, const Place& place)
{
    Place next = roundStart(place);
    ++next.round;
    return turnAt(script, next) ? std::optional(next) : nextStep(script, place);
}

std::optional<Place> nextStep(const ClassScript& script, const Place& place)
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

std::optional<Place> previousTurn(const ClassScript& script, const Place& place)
{
    if (!turnAt(script, place))
        return std::nullopt;
    Place previous = place;
    if (place.turn > 0) {
        --previous.turn;
        return previous;
    }
    const auto start = previousRound(script, place);
    if (!start)
        return std::nullopt;
    previous = *start;
    previous.turn = lastOf(turnAt(script, previous)->round->turns.size());
    return previous;
}

std::optional<Place> previousRound(const ClassScript& script, const Place& place)
{
    if (!turnAt(script, place))
        return std::nullopt;
    Place previous = roundStart(place);
    if (place.round > 0) {
        --previous.round;
        return previous;
    }
    if (place.step > 0) {
        --previous.step;
    } else if (place.section > 0) {
        --previous.section;
        previous.step = lastOf(script.sections[previous.section].steps.size());
    } else {
        return std::nullopt;
    }
    if (const Step* step = stepAt(script, previous))
        previous.round = lastOf(step->rounds.size());
    return turnAt(script, previous) ? std::optional(previous) : std::nullopt;
}

Millis plannedFrom(const ClassScript& script, const Place& place)
{
    Millis sum{0};
    for (std::optional<Place> at = place; at; at = nextTurn(script, *at)) {
        const auto here = turnAt(script, *at);
        if (!here)
            break;
        sum += here->turn->planned;
    }
    return sum;
}

Millis plannedLength(const ClassScript& script)
{
    return plannedFrom(script, Place{});
}

} // namespace vh
