#pragma once
// Turns as the judge's tests know them, and what several in a row amount to. Levels in dB over the usual one.
#include "common/live/judge.h"

#include <QtTest>

#include <vector>

Q_DECLARE_METATYPE(vh::JudgeInput)
Q_DECLARE_METATYPE(std::vector<float>)
Q_DECLARE_METATYPE(std::vector<vh::JudgeInput>)
Q_DECLARE_METATYPE(vh::Standing)
Q_DECLARE_METATYPE(vh::Blank)

namespace vh::test
{

using namespace std::chrono_literals;

/// A `yours` turn of 5 s in a section of phrases, 3 s of it trusted voice, in a normal room.
inline JudgeInput at(float overUsualDb)
{
    JudgeInput input;
    input.turnLength = 5s;
    input.result.reading.elapsedMs = 5000;
    input.result.reading.heardMs = 3000;
    input.result.reading.voicedMs = 3000;
    input.result.reading.leqOverUsualDb = overUsualDb;
    input.result.around.roomNormal = true;
    input.result.around.masked = false;
    input.result.around.voiceHeard = true;
    return input;
}

inline JudgeInput withVoice(float overUsualDb, std::uint32_t heardMs, std::uint32_t voicedMs)
{
    JudgeInput input = at(overUsualDb);
    input.result.reading.heardMs = heardMs;
    input.result.reading.voicedMs = voicedMs;
    return input;
}

inline JudgeInput silent()
{
    return withVoice(0, 0, 0);
}

template <class Change>
JudgeInput but(JudgeInput input, Change change)
{
    change(input);
    return input;
}

inline JudgeInput untrusted(float overUsualDb, std::uint8_t trustPercent, Blank why)
{
    return but(at(overUsualDb), [&](JudgeInput& input) {
        input.result.reading.trustPercent = trustPercent;
        input.result.reading.reason = why;
    });
}

inline JudgeInput masked(const JudgeInput& turn = silent())
{
    return but(turn, [](JudgeInput& input) { input.result.around.masked = true; });
}
inline JudgeInput noisyRoom()
{
    return but(silent(), [](JudgeInput& input) { input.result.around.roomNormal = false; });
}
inline JudgeInput neverHeard()
{
    return but(silent(), [](JudgeInput& input) { input.result.around.voiceHeard = false; });
}
inline JudgeInput ofLength(JudgeInput input, Millis planned, Millis played)
{
    input.turnLength = planned;
    input.result.reading.elapsedMs = static_cast<std::uint32_t>(played.count());
    return input;
}
inline JudgeInput withMe(JudgeInput input, float leakDb)
{
    input.turn = TurnKind::withMe;
    input.result.around.leakDb = leakDb;
    return input;
}
inline JudgeInput ceiling(float overUsualDb, Ceiling where)
{
    return but(at(overUsualDb), [&](JudgeInput& input) { input.result.around.ceiling = where; });
}

/// One turn after the other, each with the next serial.
inline JudgeState after(std::vector<JudgeInput> turns, JudgeState state = {})
{
    for (JudgeInput& input : turns) {
        input.result.reading.turnSerial = state.lastTurnSerial + 1;
        state = judge(state, input);
    }
    return state;
}

} // namespace vh::test
