#pragma once
// When each turn of a class is planned to start, counted from the start of the class. Pure; any thread. The plan does
// not follow later changes of the script: make a new one.
#include "common/script/script.h"

#include <compare>
#include <cstdint>
#include <optional>
#include <vector>

namespace vh
{

/// Which turn of a script: indices from 0, in the order in which the class meets them.
struct TurnIndex {
    std::uint32_t section = 0;
    std::uint32_t step = 0;
    std::uint32_t round = 0;
    std::uint32_t turn = 0;
    friend auto operator<=>(const TurnIndex&,
                            const TurnIndex&) = default; // NOLINT(modernize-use-nullptr): clang-tidy 14
};

struct PlannedTurn {
    TurnIndex index;
    Millis start{0};
    Millis length{0};
    friend bool operator==(const PlannedTurn&, const PlannedTurn&) = default;
};

struct TimingPlan {
    std::vector<PlannedTurn> turns;     ///< in order, without gaps
    std::vector<Millis> sectionLengths; ///< one per section
    Millis total{0};

    /// Nothing for an index that the script does not have.
    [[nodiscard]] std::optional<Millis> startOf(TurnIndex index) const;
    /// The turn that is on at this time from the start; a turn's end belongs to the next. Null before the start, at
    /// the total and after. Owned by the plan.
    [[nodiscard]] const PlannedTurn* turnAt(Millis sinceStart) const;

    friend bool operator==(const TimingPlan&, const TimingPlan&) = default;
};

TimingPlan planOf(const ClassScript& script);

} // namespace vh
