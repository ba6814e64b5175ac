#pragma once
// Judges one finished turn. The ONE function that the home and the hall both run on the same numbers, so that they
// never disagree. The rules, in the order they are applied, are in judge.cpp and in the rows of its test. Pure; any
// thread.
#include "common/live/standing.h"
#include "common/measure/reading.h"

namespace vh
{

struct JudgeInput {
    TurnResult result;
    TurnKind turn = TurnKind::yours;
    SectionKind section = SectionKind::phrases;
    Millis turnLength{0}; ///< as planned: a turn cut short was not a whole turn
    float offsetDb = 0;   ///< how the leader moved this person's band
};

/// What is carried from turn to turn, per person and class. Starts as it is here.
struct JudgeState {
    Standing standing = Standing::notYet;      ///< notYet, inBand, below, above, straining, noVoice or cantTell
    Blank reason = Blank::none;                ///< why, if cantTell
    Standing levelStanding = Standing::notYet; ///< by level alone, from the last judged turn
    std::uint8_t lowTurns = 0;                 ///< judged turns running under the way out of the band
    std::uint8_t highTurns = 0;                ///< judged turns running above plenty
    std::uint8_t quietTurns = 0;               ///< whole turns running without a voice
    std::uint8_t provenQuietTurns = 0;         ///< of these, the last ones in which a voice would have been heard
    std::uint16_t judgedTurns = 0;             ///< trusted judged turns in this class
    std::uint32_t lastTurnSerial = 0;          ///< a result that comes twice, or late, changes nothing
    friend bool operator==(const JudgeState&, const JudgeState&) = default;
};

[[nodiscard]] JudgeState judge(const JudgeState& before, const JudgeInput& input);

/// What may be said beside the meter in a withMe turn that is not judged: "I hear you".
[[nodiscard]] bool heard(const Reading& reading);

inline constexpr std::uint8_t kTrustedFromPercent = 50;
inline constexpr float kLeakNotJudgedAboveDb = -10; ///< withMe turns count only if the leak is this far below the voice
inline constexpr Millis kWholeTurnAtLeast{4'000};
inline constexpr Millis kWholeTurnSlack{500};         ///< of a whole turn this much may be missing at its edges
inline constexpr std::uint32_t kNoVoiceUnderMs = 200; ///< less than one spoken syllable

} // namespace vh
