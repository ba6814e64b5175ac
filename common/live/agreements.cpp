#include "common/live/agreements.h"

#include <algorithm>
#include <cstddef>
#include <span>

namespace vh
{

namespace
{

using namespace std::string_view_literals;

// Each in the order of its enum.
constexpr std::array kNames{"level-visible"sv,    "results-kept"sv,       "other-leaders"sv,
                            "attendance-named"sv, "practice-to-leader"sv, "addressed"sv,
                            "name-seen"sv,        "pictures"sv,           "may-ring"sv};
constexpr std::array kLevels{"nobody"sv, "leader"sv, "leader-and-helpers"sv};
constexpr std::array kAddressings{"not"sv, "kind"sv, "prompts"sv};
constexpr std::array kNoYes{"no"sv, "yes"sv};

std::span<const std::string_view> wordsOf(AgreementKind kind)
{
    switch (kind) {
    case AgreementKind::levelVisible:
        return kLevels;
    case AgreementKind::addressed:
        return kAddressings;
    default:
        return kNoYes;
    }
}

bool Agreements::*flagOf(AgreementKind kind)
{
    switch (kind) {
    case AgreementKind::resultsKept:
        return &Agreements::resultsKept;
    case AgreementKind::otherLeaders:
        return &Agreements::otherLeaders;
    case AgreementKind::attendanceNamed:
        return &Agreements::attendanceNamed;
    case AgreementKind::practiceToLeader:
        return &Agreements::practiceToLeader;
    case AgreementKind::nameSeen:
        return &Agreements::nameSeen;
    case AgreementKind::pictures:
        return &Agreements::pictures;
    case AgreementKind::mayRing:
        return &Agreements::mayRing;
    case AgreementKind::levelVisible:
    case AgreementKind::addressed:
        break;
    }
    return nullptr;
}

} // namespace

std::string_view nameOf(AgreementKind kind)
{
    const auto index = static_cast<std::size_t>(kind);
    return index < kNames.size() ? kNames[index] : std::string_view{};
}

std::optional<AgreementKind> agreementKindOf(std::string_view name)
{
    const auto* found = std::find(kNames.begin(), kNames.end(), name);
    if (found == kNames.end())
        return std::nullopt;
    return static_cast<AgreementKind>(found - kNames.begin());
}

std::string_view valueOf(const Agreements& agreements, AgreementKind kind)
{
    if (kind == AgreementKind::levelVisible)
        return kLevels[static_cast<std::size_t>(agreements.levelVisible)];
    if (kind == AgreementKind::addressed)
        return kAddressings[static_cast<std::size_t>(agreements.addressed)];
    const auto flag = flagOf(kind);
    return kNoYes[flag && agreements.*flag ? 1 : 0];
}

bool setValue(Agreements& agreements, AgreementKind kind, std::string_view value)
{
    const auto words = wordsOf(kind);
    const auto found = std::find(words.begin(), words.end(), value);
    if (found == words.end())
        return false;
    const auto index = found - words.begin();
    if (kind == AgreementKind::levelVisible)
        agreements.levelVisible = static_cast<LevelVisible>(index);
    else if (kind == AgreementKind::addressed)
        agreements.addressed = static_cast<Addressed>(index);
    else if (const auto flag = flagOf(kind))
        agreements.*flag = index == 1;
    else
        return false;
    return true;
}

} // namespace vh
