#pragma once
// Where a class is: section, step, round, turn, each counted from 0. Ordered as the class goes. All functions take the
// script the place belongs to; none keeps it. A place outside the script gives nothing back. Of each kind there are
// fewer than 65,536 (the script reader's limits are far below).
#include "common/script/script.h"

#include <compare>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace vh
{

struct Place {
    std::uint16_t section = 0;
    std::uint16_t step = 0;
    std::uint16_t round = 0;
    std::uint16_t turn = 0;
    // NOLINTNEXTLINE(modernize-use-nullptr): a false alarm of LLVM 14 about <=>
    friend auto operator<=>(const Place&, const Place&) = default;
};

/// A step of the script, wherever the class is.
struct StepAt {
    std::uint16_t section = 0;
    std::uint16_t step = 0;
    // NOLINTNEXTLINE(modernize-use-nullptr): as above
    friend auto operator<=>(const StepAt&, const StepAt&) = default;
};
[[nodiscard]] constexpr StepAt stepOf(const Place& place)
{
    return {place.section, place.step};
}
/// The first turn of the step.
[[nodiscard]] constexpr Place startOf(StepAt step)
{
    return {step.section, step.step, 0, 0};
}

/// Steps that this class leaves out, in order, each once.
using LeftOut = std::vector<StepAt>;
[[nodiscard]] bool isLeftOut(std::span<const StepAt> leftOut, StepAt step);

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

/// Null for a step outside the script.
[[nodiscard]] const Step* stepAt(const ClassScript& script, StepAt step);

// Where nothing is said of steps left out, none is. From a place in such a step the way leads out of it.

/// Forwards across steps and sections; nothing after the last.
[[nodiscard]] std::optional<Place> nextTurn(const ClassScript& script, const Place& place,
                                            std::span<const StepAt> leftOut = {});
[[nodiscard]] std::optional<Place> nextRound(const ClassScript& script, const Place& place,
                                             std::span<const StepAt> leftOut = {});
[[nodiscard]] std::optional<Place> nextStep(const ClassScript& script, const Place& place,
                                            std::span<const StepAt> leftOut = {});
/// Backwards: the turn before, and the start of the round before. Nothing before the first.
[[nodiscard]] std::optional<Place> previousTurn(const ClassScript& script, const Place& place,
                                                std::span<const StepAt> leftOut = {});
[[nodiscard]] std::optional<Place> previousRound(const ClassScript& script, const Place& place,
                                                 std::span<const StepAt> leftOut = {});

/// Planned length of all turns from the start of this one to the end of the class; 0 outside the script.
[[nodiscard]] Millis plannedFrom(const ClassScript& script, const Place& place, std::span<const StepAt> leftOut = {});
[[nodiscard]] Millis plannedLength(const ClassScript& script, std::span<const StepAt> leftOut = {});
/// Of all turns of one step, and of one section.
[[nodiscard]] Millis plannedLength(const Step& step);
[[nodiscard]] Millis plannedLengthOf(const ClassScript& script, std::size_t section,
                                     std::span<const StepAt> leftOut = {});

} // namespace vh
