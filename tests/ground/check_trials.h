#pragma once
// Mic checks by the thousand, each answered as a person at home would: quiet, lines, a vowel, a line with more voice,
// the check's sound on the loudspeaker. Through the real meter and the real check. Thread: one.
#include "common/home/full_check.h"
#include "tests/ground/altered.h"
#include "tests/ground/check_air.h"

#include <optional>

namespace vh::ground
{

struct CheckSetting {
    Kind kind = Kind::modal;
    Altering altering = Altering::nothing;
    Wire wire = Wire::person;
    std::optional<Noise> noise; ///< beside the room
    bool headphones = false;    ///< the loudspeaker is not heard
    bool harmfulOnly = false;   ///< nothing is asked where the computer does no harm
};

/// What the computer does to what a class reads: lines 6 dB softer and 6 dB louder and a long vowel, each beside a line
/// with the usual voice.
struct Harm {
    double levelDb = 0;   ///< how far the level of the worst of them, against the usual line, is from true
    double lostShare = 0; ///< of the time of the worst of them is more than 10 dB under what it should be
};
/// A check should find it: a reading may be 3 dB off at most (docs/ears.md), and a tenth of the time that somebody held
/// a vowel is a difference that people are shown.
inline bool doesHarm(const Harm& harm)
{
    return harm.levelDb >= 3 || harm.lostShare >= 0.1;
}

struct CheckOutcome {
    CheckFacts facts;
    CheckFinding finding = CheckFinding::fine;
    double louderByDb = 0; ///< what the person did
    Harm harm;
    double soundSeconds = 0;
};

CheckOutcome runCheck(const CheckRoom& room, const CheckSetting& setting, Random& random);

} // namespace vh::ground
