#pragma once
// Where a class is: section, step, round, turn, each counted from 0. Ordered as the class goes. All functions take the
// script the place belongs to; none keeps it. A place outside the script gives nothing back. Of each kind there are
// fewer than 65,536 (the script reader's limits are far below).
#include "common/script/script.h"

#include <compare>
#include <cstdint>
#include <optional>

namespace vh
{

struct Place {
    std::uint16_t section = 0;
    std::uint16_t step = 0;
    std::uint16_t round = 0;
    std::uint16_t turn = 0;
    friend auto operator<=>(const Place&, const Place&) = default;
};

/// The four things a place points at. The pointers live as long as the script.
struct TurnAt {
    const Section* section = nullptr;
    const Step* step = nullptr;
    const Round* round = nullptr;
    const Turn* turn = nullptr;
};

[[nodiscard]] std::optional<TurnAt> turnAt(const ClassScript& script, const Place& place);

/// The first turn of the round, or of the step, that the place is in.
[[nodiscard]] constexpr Place roundStart(Place place)
{
    return {place.section, place.step, place.round, 0};
}
[[nodiscard]] constexpr Place stepStart(Place place)
{
    return {place.section, place.step, 0, 0};
}

/// Forwards across steps and sections; nothing after the last.
[[nodiscard]] std::optional<Place> nextTurn(const ClassScript& script, const Place& place);
[[nodiscard]] std::optional<Place> nextRound(const ClassScript& script, const Place& place);
[[nodiscard]] std::optional<Place> nextStep(const ClassScript& script, const Place& place);
/// Backwards: the turn before, and the start of the round before. Nothing before the first.
[[nodiscard]] std::optional<Place> previousTurn(const ClassScript& script, const Place& place);
[[nodiscard]] std::optional<Place> previousRound(const ClassScript& script, const Place& place);

/// Planned length of all turns from the start of this one to the end of the class; 0 outside the script.
[[nodiscard]] Millis plannedFrom(const ClassScript& script, const Place& place);
[[nodiscard]] Millis plannedLength(const ClassScript& script);

} // namespace vh
