#pragma once
// How a person's voice stands to the band that was agreed for this person, and that band. Levels are dB(A) over the
// person's own usual level of the same kind of task. Plain values.
#include "common/measure/usual_level.h"
#include "common/script/script.h"

#include <cstdint>
#include <optional>
#include <string_view>

namespace vh
{

enum class Standing : std::uint8_t {
    notYet,    ///< nothing judged so far in this class: the seat shows nothing
    inBand,    ///< easy to hear
    below,     ///< a little more
    above,     ///< plenty
    straining, ///< ease off: far above twice running
    noVoice,   ///< only where the microphone is proven alive and nothing masks it
    cantTell,  ///< and why; never counted as below or silent
    resting,   ///< listening today, by own choice
    private_,  ///< the level is kept private
    away,      ///< line lost
};

/// "notYet", "inBand", ... "private", "away".
std::string_view nameOf(Standing standing);
std::optional<Standing> standingOf(std::string_view name);

/// +3 dB is the change people rate as meaningful, +6 about one step of vocal effort, +9 well under loud speech.
/// Working choices of the house, to be moved by the leader per person.
struct Band {
    float easyFromDb = 3;
    float aimDb = 6;
    float upperEdgeDb = 9;
    float plentyToDb = 12; ///< above this in two judged turns: ease off
    friend bool operator==(const Band&, const Band&) = default;
};
/// Once in, out only below easyFrom - 2 (twice); once above, in again only below plentyTo - 2.
inline constexpr float kHysteresisDb = 2;
/// How far a leader may move one person's band either way.
inline constexpr float kLargestOffsetDb = 6;

/// Nothing for pauses and glides, which have no standing by level. Category naming and open talk start at +2.
/// The offset is held within +-kLargestOffsetDb.
[[nodiscard]] std::optional<Band> bandFor(SectionKind kind, float offsetDb = 0);
/// The kind of task whose usual level counts in such a section; nothing for a pause.
[[nodiscard]] std::optional<TaskKind> taskOf(SectionKind kind);
/// The band as a calibrated home shows it: no edge above 80 dB(A) at 30 cm.
[[nodiscard]] Band underCeiling(Band band, float usualDbaAt30Cm);

} // namespace vh
