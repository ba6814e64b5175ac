#include "common/live/class_lead.h"
#include "common/live/standing.h"

#include <array>
#include <cstddef>

namespace vh
{

namespace
{

using namespace std::string_view_literals;

// Each in the order of its enum.
constexpr std::array kPhases{"notStarted"sv, "running"sv, "waiting"sv, "calmPause"sv, "ended"sv};
constexpr std::array kCommands{"start"sv, "goOn"sv, "back"sv, "onceMore"sv, "wait"sv,    "resume"sv,
                               "skip"sv,  "end"sv,  "jump"sv, "stretch"sv,  "leaveOut"sv};
constexpr std::array kRefusals{"none"sv,      "oldLease"sv, "oldPlace"sv,  "notNow"sv,
                               "notLeader"sv, "noStep"sv,   "oldScript"sv, "otherPast"sv};
constexpr std::array kStandings{"notYet"sv,  "inBand"sv,   "below"sv,   "above"sv,   "straining"sv,
                                "noVoice"sv, "cantTell"sv, "resting"sv, "private"sv, "away"sv};

template <class Enum, std::size_t n>
std::string_view nameIn(const std::array<std::string_view, n>& names, Enum value)
{
    const auto index = static_cast<std::size_t>(value);
    return index < n ? names[index] : std::string_view{};
}

template <class Enum, std::size_t n>
std::optional<Enum> valueIn(const std::array<std::string_view, n>& names, std::string_view name)
{
    for (std::size_t i = 0; i < n; ++i) {
        if (names[i] == name)
            return static_cast<Enum>(i);
    }
    return std::nullopt;
}

} // namespace

std::string_view nameOf(Phase phase)
{
    return nameIn(kPhases, phase);
}
std::string_view nameOf(CommandKind kind)
{
    return nameIn(kCommands, kind);
}
std::string_view nameOf(Refusal refusal)
{
    return nameIn(kRefusals, refusal);
}
std::string_view nameOf(Standing standing)
{
    return nameIn(kStandings, standing);
}

std::optional<Phase> phaseOf(std::string_view name)
{
    return valueIn<Phase>(kPhases, name);
}
std::optional<CommandKind> commandKindOf(std::string_view name)
{
    return valueIn<CommandKind>(kCommands, name);
}
std::optional<Refusal> refusalOf(std::string_view name)
{
    return valueIn<Refusal>(kRefusals, name);
}
std::optional<Standing> standingOf(std::string_view name)
{
    return valueIn<Standing>(kStandings, name);
}

} // namespace vh
