#pragma once
// What a class that was led shows of its time: from the changes of place, in order, to how long each section and each
// kind of turn really took. A step counts for the leader's pace only if it was gone through from its first turn to its
// last; held time counts (she was not done), a calm pause (her line was lost) does not, and one step never counts as
// more than twice its plan and a little, so that an interruption is not taken for a pace. Pure; any thread.
#include "common/live/class_state.h"
#include "common/script/own_pace.h"

#include <span>
#include <vector>

namespace vh
{

/// Where the class was from then on.
struct PlaceSeen {
    Instant at{};
    Phase phase = Phase::notStarted;
    Place place;
    friend bool operator==(const PlaceSeen&, const PlaceSeen&) = default;
};
using ClassTrace = std::vector<PlaceSeen>;

/// Adds it where it is another place or phase than the last one.
void note(ClassTrace& trace, const PlaceSeen& seen);

/// Alone, nobody answers and nobody drinks: only what she shows counts, and no pause.
enum class Led : std::uint8_t { inClass, rehearsal };

/// All places belong to `script`. Empty for a class that was only leafed through (less than kLeastOfPlan of the planned
/// time of what was gone through, or less than kLeastGoneThrough of it): that is no pace.
PaceSample paceOf(const ClassScript& script, std::span<const PlaceSeen> trace, Led led);
inline constexpr double kLeastOfPlan = 0.6;
inline constexpr Millis kLeastGoneThrough{120'000};

struct SectionTime {
    Millis planned{0}; ///< of all of it
    Millis actual{0};  ///< spent in it, held time included, calm pauses not
    std::size_t steps = 0;
    std::size_t stepsSeen = 0; ///< of these, the class was in
    friend bool operator==(const SectionTime&, const SectionTime&) = default;
};
/// One for each section.
std::vector<SectionTime> sectionTimes(const ClassScript& script, std::span<const PlaceSeen> trace);

} // namespace vh
