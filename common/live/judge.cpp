#include "common/live/judge.h"

#include <algorithm>
#include <cmath>

namespace vh
{

namespace
{

void countUp(std::uint8_t& count)
{
    count = static_cast<std::uint8_t>(std::min(count + 1, 200));
}

void forgetQuiet(JudgeState& state)
{
    state.quietTurns = 0;
    state.provenQuietTurns = 0;
}

void setCantTell(JudgeState& state, Blank why)
{
    state.standing = Standing::cantTell;
    state.reason = why;
}

Blank whyNotProven(const TurnResult& result)
{
    if (result.reading.reason != Blank::none)
        return result.reading.reason;
    if (result.around.masked)
        return Blank::loudspeakerTooLoud;
    return result.around.roomNormal ? Blank::noSignal : Blank::roomTooNoisy;
}

bool wasWhole(const JudgeInput& input)
{
    return input.turn == TurnKind::yours && input.turnLength >= kWholeTurnAtLeast &&
           Millis{input.result.reading.elapsedMs} + kWholeTurnSlack >= input.turnLength;
}

/// Less than a second of voice: the last finished turn stands, unless this is the second whole turn without any, or
/// with no more than scraps of it in a room that covers voices.
JudgeState afterLittleVoice(JudgeState state, const JudgeInput& input)
{
    const Surroundings& around = input.result.around;
    const bool scraps = wasWhole(input) && (around.masked || !around.roomNormal);
    if (input.result.reading.heardMs >= kNoVoiceUnderMs && !scraps) {
        forgetQuiet(state);
        if (state.standing == Standing::noVoice)
            state.standing = state.levelStanding;
        return state;
    }
    if (!wasWhole(input))
        return state;
    countUp(state.quietTurns);
    const bool proven = around.roomNormal && around.voiceHeard && !around.masked;
    if (proven)
        countUp(state.provenQuietTurns);
    else
        state.provenQuietTurns = 0;
    if (state.quietTurns >= 2 && !proven) {
        setCantTell(state, whyNotProven(input.result));
    } else if (state.provenQuietTurns >= 2) {
        state.standing = Standing::noVoice;
        state.reason = Blank::none;
    }
    return state;
}

bool wasIn(Standing standing)
{
    return standing == Standing::inBand || standing == Standing::above || standing == Standing::straining;
}

/// In at easyFrom, out only under easyFrom - 2 in two judged turns; above in over plentyTo, out under plentyTo - 2;
/// straining when over plentyTo in two judged turns running.
JudgeState afterVoice(JudgeState state, const Band& band, float levelDb, Ceiling ceiling)
{
    const bool over = levelDb > band.plentyToDb || ceiling == Ceiling::over;
    const bool low = levelDb < band.easyFromDb - kHysteresisDb && ceiling == Ceiling::clear;
    if (over)
        countUp(state.highTurns);
    else
        state.highTurns = 0;
    if (low)
        countUp(state.lowTurns);
    else
        state.lowTurns = 0;

    const Standing before = state.levelStanding;
    const bool wasAbove = before == Standing::above || before == Standing::straining;
    if (over)
        state.levelStanding = state.highTurns >= 2 ? Standing::straining : Standing::above;
    else if (wasAbove && levelDb >= band.plentyToDb - kHysteresisDb)
        state.levelStanding = Standing::above;
    else if (levelDb >= band.easyFromDb || ceiling == Ceiling::reached)
        state.levelStanding = Standing::inBand;
    else
        state.levelStanding = wasIn(before) && state.lowTurns < 2 ? Standing::inBand : Standing::below;

    state.standing = state.levelStanding;
    state.reason = Blank::none;
    ++state.judgedTurns;
    return state;
}

} // namespace

JudgeState judge(const JudgeState& before, const JudgeInput& input)
{
    const Reading& reading = input.result.reading;
    const auto band = bandFor(input.section, input.offsetDb);
    // 1. What is not judged at all leaves everything as it was.
    if (reading.judgeVersion != kJudgeVersion || reading.turnSerial <= before.lastTurnSerial || !band)
        return before;
    if (input.turn != TurnKind::yours && input.turn != TurnKind::withMe)
        return before;
    if (input.turn == TurnKind::withMe && !(input.result.around.leakDb <= kLeakNotJudgedAboveDb))
        return before;
    if (!std::isfinite(reading.leqOverUsualDb))
        return before;

    JudgeState state = before;
    state.lastTurnSerial = reading.turnSerial;
    // 2. What cannot be trusted is said to be so, and is counted neither as low nor as silent.
    if (reading.trustPercent < kTrustedFromPercent) {
        forgetQuiet(state);
        setCantTell(state, reading.reason);
        return state;
    }
    // 3. Too little voice to judge.
    if (reading.voicedMs < kVoiceToJudgeMs)
        return afterLittleVoice(state, input);
    // 4. The level.
    forgetQuiet(state);
    return afterVoice(state, *band, reading.leqOverUsualDb, input.result.around.ceiling);
}

bool heard(const Reading& reading)
{
    return reading.heardMs >= kNoVoiceUnderMs;
}

} // namespace vh
