#pragma once
// The rounds of a step, changed one press at a time. Pure; any thread.
#include "common/script/script.h"

#include <optional>
#include <string_view>

namespace vh::write
{

struct TurnSpot {
    int round = 0;
    int turn = 0;
    friend bool operator==(const TurnSpot&, const TurnSpot&) = default;
};

enum class RoundEdit : std::uint8_t {
    listen,
    ready,
    withMe,
    yours,
    shorter,
    longer,
    addTurn,
    dropTurn,
    addRound,
    dropRound,
    moreVoice,
    byText ///< every turn as long as its text takes to be said
};
inline constexpr int kRoundEdits = static_cast<int>(RoundEdit::byText) + 1;

struct EditedRounds {
    std::vector<Round> rounds; ///< never empty, and no round of it
    TurnSpot at;
};
/// Nothing where there is nothing to do: dropping the last turn there is, a length at its limit, a text without vowels.
std::optional<EditedRounds> editedRounds(const Step& step, TurnSpot at, RoundEdit what,
                                         std::string_view language = "en");
/// The turn gets this many seconds.
std::optional<EditedRounds> withSeconds(const Step& step, TurnSpot at, double seconds);
TurnSpot nearestTurn(const std::vector<Round>& rounds, TurnSpot at);

} // namespace vh::write
