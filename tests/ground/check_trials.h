#pragma once
// Mic checks by the thousand, each answered as a person at home would: quiet, lines, a vowel, a line with more voice,
// the check's sound on the loudspeaker. Through the real meter and the real check. Thread: one.
#include "common/home/full_check.h"
#include "tests/ground/altered.h"
#include "tests/ground/check_room.h"

#include <optional>

namespace vh::ground
{

/// What the microphone is connected to.
enum class Wire : std::uint8_t {
    person,    ///< the microphone in front of the person
    monitor,   ///< what the computer plays, and nothing else
    elsewhere, ///< a microphone in another room, or in a drawer: a room, no person and no loudspeaker
    hum,       ///< an input with nothing in it
    dead,      ///< digital silence
};
const char* nameOf(Wire wire);

struct CheckSetting {
    Kind kind = Kind::modal;
    Altering altering = Altering::nothing;
    Wire wire = Wire::person;
    std::optional<Noise> noise; ///< beside the room
    bool headphones = false;    ///< the loudspeaker is not heard
};

struct CheckOutcome {
    CheckFacts facts;
    CheckFinding finding = CheckFinding::fine;
    double louderByDb = 0; ///< what the person did
    double movedDb =
        0; ///< how far the gain that the person's voice got was from constant, but for a thirtieth at either end
    double soundSeconds = 0;
};

CheckOutcome runCheck(const CheckRoom& room, const CheckSetting& setting, Random& random);

} // namespace vh::ground
