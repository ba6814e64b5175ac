#pragma once
// The people of the chorus as a pure table: who sits in which home, what each agreed to, and how the leader is meant to
// see them. How loud each speaks: manner.h; with which voice, in which room: person.h. Pure; any thread.
#include "common/live/agreements.h"
#include "common/live/standing.h"
#include "common/wire/to_relay.h"

#include <array>
#include <optional>
#include <string_view>

namespace vh::chorus
{

enum class Character : std::uint8_t {
    steady,
    fading,             ///< begins well and gets quieter as the class goes on
    quiet,              ///< no louder than usual
    tooLoud,            ///< far above the band, every time
    silentInOneSection, ///< says nothing while things of a category are named
    noisyRoom,          ///< what is heard cannot be trusted
    dropsLine,          ///< loses the line once, in the very moment a result leaves
    lateComer,          ///< comes when the class has begun
    resting,            ///< just listens today
    keepsPrivate,       ///< shows the level to nobody
    writesALot,
    callsForHelp,
    farFromMicrophone, ///< two metres away, mic check included
    gainRiding,        ///< the computer evens the level out before anybody measures it
    couple,            ///< two people at one microphone
};
inline constexpr std::array kCharacters{Character::steady,
                                        Character::fading,
                                        Character::quiet,
                                        Character::tooLoud,
                                        Character::silentInOneSection,
                                        Character::noisyRoom,
                                        Character::dropsLine,
                                        Character::lateComer,
                                        Character::resting,
                                        Character::keepsPrivate,
                                        Character::writesALot,
                                        Character::callsForHelp,
                                        Character::farFromMicrophone,
                                        Character::gainRiding,
                                        Character::couple};

/// "steady", "silentInOneSection"...
std::string_view nameOf(Character character);
/// Who sits in the home with this number: all fifteen among the first twenty, most of them steady.
Character characterOf(std::uint32_t index);

/// A moment of the class as one home lives it.
struct Moment {
    SectionKind section = SectionKind::phrases;
    TurnKind turn = TurnKind::yours;
    bool moreVoice = false; ///< the round's
    double classShare = 0;  ///< how far into the class: 0 in its first section, 1 in its last
    std::uint32_t turnSerial = 0;
    Millis elapsed{0}; ///< sound looked at in this turn
    Millis length{0};  ///< of the turn as planned
};

/// Nothing goes up in other turns, nor in water pauses.
[[nodiscard]] bool isVoiced(SectionKind section, TurnKind turn);

/// What this person answered at the door. Most show their level to the leader; keepsPrivate to nobody.
Agreements agreementsOf(Character character, std::uint64_t seed);
wire::VoiceToday voiceToday(Character character, std::uint64_t seed);

/// Agrees when asked whether everybody may hear them.
[[nodiscard]] bool likesToBeHeard(Character character);

/// How the leader is meant to see this person late in a class, after the second of two voiced turns of one kind in its
/// later half; nothing where it depends on the section that is on.
std::optional<Standing> meantStanding(Character character);

} // namespace vh::chorus
