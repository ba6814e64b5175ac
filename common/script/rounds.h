#pragma once
// The rounds of a step as the file gives them (for a step, or for all steps of a section), and what they become for one
// text. Internal to the reader. Any thread.
#include "common/script/fields.h"
#include "common/script/marks.h"
#include "common/script/pace.h"
#include "common/script/script.h"

#include <optional>
#include <vector>

namespace vh
{

struct TurnSpec {
    TurnKind kind = TurnKind::listen;
    std::optional<Millis> seconds; ///< absent: by Timing
    SourceSpot at;
};

struct RoundSpec {
    bool moreVoice = false;
    int times = 1;
    std::vector<TurnSpec> turns;
};

/// From "rounds" or "seconds" of a step or section; nothing when it has neither, an empty list when what it has is
/// wrong (and complained about).
std::optional<std::vector<RoundSpec>> readRoundSpecs(Fields& fields, bool inPause, Complaints& complaints);

/// How long turns without seconds take.
struct Timing {
    Pace pace = nullptr; ///< null: by the vowel-group rule
    std::string_view language;
    [[nodiscard]] std::optional<Millis> of(TurnKind kind, const MarkedText& text) const;
};

/// Adds the rounds of one step. `turnsLeft` is what the class may still have of turns; less than what is needed is a
/// complaint at `stepAt`, made once per class: `turnsLeft` is empty from then on, and nothing more is added.
std::vector<Round> roundsFor(const std::vector<RoundSpec>& specs, const MarkedText& text, Timing timing,
                             SourceSpot stepAt, std::optional<std::size_t>& turnsLeft, Complaints& complaints);

} // namespace vh
