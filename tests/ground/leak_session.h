#pragma once
// One home in one class, as sound: what is played, what the microphone has of it, and the turns with their truth. The
// leader speaks in listen and withMe turns, into some of the person's own turns too; playback is late by an unknown
// time, and its clock runs at another rate. Sound at kVoiceRateHz. Thread: one.
#include "tests/ground/leak_store.h"
#include "tests/ground/noises.h"

#include "common/script/script.h"

#include <optional>

namespace vh::ground
{

struct LeakScene {
    std::optional<Kind> kind;   ///< nothing: the person is silent
    double leakDb = -20;        ///< active level of the leak over that of the person (silent: over their usual)
    bool plays = true;          ///< false: a headset, nothing comes back
    std::optional<Noise> noise; ///< beside a quiet room
    double noiseDb = -10;       ///< over the person's voice, or their usual level
    bool unison = false;        ///< both hold the same vowel on the same pitch in withMe
    bool jump = false;          ///< the loudspeaker starts again once, with another delay
    bool secondCopy = false;    ///< the leader comes from another program as well, later and unknown
    double spokenInto = 0.25;   ///< share of the person's own turns into which the leader speaks
    double mostDrift = 500e-6;
};

struct LeakTurn {
    TurnKind kind = TurnKind::listen;
    std::size_t begin = 0;
    std::size_t end = 0;
    bool spoke = false; ///< the person, in it
    bool spokenInto = false;
    double levelDbfsA = 0; ///< of what they said
};

struct LeakSession {
    Samples mic;
    Samples far;
    std::vector<LeakTurn> turns;
    double delaySeconds = 0;
    double drift = 0;
};

inline constexpr double kLeakUsualDbfsA = -45;
inline constexpr double kLeakRoomDbfsA = -77;

/// `cycles` of listen, ready, withMe, yours, ready, yours, after an opening of several lines.
LeakSession leakSession(LeakStore& store, const LeakScene& scene, int cycles, Random& random);

} // namespace vh::ground
