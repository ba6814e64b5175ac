#include "demo/chorus/characters.h"

#include "demo/chorus/seeded.h"

#include <cmath>

namespace vh::chorus
{

namespace
{

/// What each number below is drawn for.
enum Draw : std::uint64_t { kLevelVisible = 1, kKept, kNamed, kAddressed, kSore };

} // namespace

std::string_view nameOf(Character character)
{
    static constexpr std::array<std::string_view, kCharacters.size()> kNames{
        "steady",    "fading",  "quiet",        "tooLoud",    "silentInOneSection", "noisyRoom",         "dropsLine",
        "lateComer", "resting", "keepsPrivate", "writesALot", "callsForHelp",       "farFromMicrophone", "gainRiding",
        "couple"};
    return kNames[static_cast<std::size_t>(character)];
}

Character characterOf(std::uint32_t index)
{
    using enum Character;
    static constexpr std::array<Character, 27> kSeats{steady,       quiet,
                                                      steady,       fading,
                                                      writesALot,   farFromMicrophone,
                                                      keepsPrivate, noisyRoom,
                                                      steady,       resting,
                                                      tooLoud,      couple,
                                                      dropsLine,    steady,
                                                      lateComer,    silentInOneSection,
                                                      steady,       callsForHelp,
                                                      gainRiding,   steady,
                                                      quiet,        keepsPrivate,
                                                      steady,       fading,
                                                      steady,       steady,
                                                      quiet};
    return kSeats[index % kSeats.size()];
}

bool isVoiced(SectionKind section, TurnKind turn)
{
    return section != SectionKind::pause && (turn == TurnKind::withMe || turn == TurnKind::yours);
}

Agreements agreementsOf(Character character, std::uint64_t seed)
{
    Agreements agreements;
    agreements.levelVisible = unit({seed, kLevelVisible}) < 0.3 ? LevelVisible::leaderAndHelpers : LevelVisible::leader;
    if (character == Character::keepsPrivate)
        agreements.levelVisible = LevelVisible::nobody;
    agreements.resultsKept = unit({seed, kKept}) < 0.5;
    agreements.otherLeaders = agreements.resultsKept && unit({seed, kKept, 1}) < 0.5;
    agreements.practiceToLeader = unit({seed, kKept, 2}) < 0.4;
    agreements.attendanceNamed = unit({seed, kNamed}) < 0.8;
    agreements.nameSeen = unit({seed, kNamed, 1}) < 0.7;
    agreements.pictures = unit({seed, kNamed, 2}) < 0.3;
    agreements.mayRing = unit({seed, kNamed, 3}) < 0.6;
    agreements.addressed = static_cast<Addressed>(mixed({seed, kAddressed}) % 3);
    return agreements;
}

wire::VoiceToday voiceToday(Character character, std::uint64_t seed)
{
    if (character == Character::resting)
        return wire::VoiceToday::listening;
    return unit({seed, kSore}) < 0.1 ? wire::VoiceToday::sore : wire::VoiceToday::fine;
}

bool likesToBeHeard(Character character)
{
    return character == Character::steady || character == Character::writesALot || character == Character::tooLoud ||
           character == Character::couple;
}

std::optional<Standing> meantStanding(Character character)
{
    switch (character) {
    case Character::fading:
    case Character::quiet:
        return Standing::below;
    case Character::tooLoud:
        return Standing::straining;
    case Character::noisyRoom:
        return Standing::cantTell;
    case Character::resting:
        return Standing::resting;
    case Character::keepsPrivate:
        return Standing::private_;
    case Character::silentInOneSection: // noVoice in that section, in band in others
    case Character::gainRiding:         // the computer hides the level; nothing shows that yet
        return std::nullopt;
    default:
        return Standing::inBand;
    }
}

} // namespace vh::chorus
