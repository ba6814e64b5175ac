#pragma once
// What a home says of one turn, four times a second and once more when the turn is over. Every number is cumulative
// within its turn, so that losing any reading but the last changes nothing. Levels are dB(A) over the person's own
// usual level of this kind of task; nothing absolute is in here. They are
// whole tenths of a decibel, as on the wire, so that the home judges the very numbers that the hall gets. Plain values.
#include "common/signal/voice_frame.h"

#include <cstdint>

namespace vh
{

/// The rules of `TurnTally` and `judge` together. Another number means other rules, and is not judged here.
inline constexpr std::uint8_t kJudgeVersion = 1;

/// Voice needed in a turn before it is judged.
inline constexpr std::uint32_t kVoiceToJudgeMs = 1000;

struct Reading {
    std::uint32_t turnSerial = 0;    ///< ClassState::turnSerial of the turn this belongs to
    std::uint32_t elapsedMs = 0;     ///< sound looked at in this turn
    std::uint32_t heardMs = 0;       ///< of that, voice, trusted or not
    std::uint32_t voicedMs = 0;      ///< of that, voice that can be trusted
    float leqOverUsualDb = 0;        ///< energy mean over the trusted voice; means something only if voicedMs > 0
    float nowOverUsualDb = 0;        ///< Fast level of the last frame, for the moving bar only; never judged
    std::uint8_t trustPercent = 100; ///< 0..100, rule in turn_tally.h
    Blank reason = Blank::none;      ///< the commonest reason among what cannot be trusted; none if all can
    std::uint8_t judgeVersion = kJudgeVersion;
    friend bool operator==(const Reading&, const Reading&) = default;
};

/// Where this microphone is calibrated, nobody is asked for more than 80 dB(A) at 30 cm. The home alone knows absolute
/// levels, so it tells just which side of that the turn was on.
enum class Ceiling : std::uint8_t {
    clear,   ///< not calibrated, or comfortably under it
    reached, ///< within the last decibel under it: never asked for more
    over,    ///< above it: counts as above the band, wherever the band is
};
inline constexpr float kCeilingDbaAt30Cm = 80.0F;
Ceiling ceilingOf(float leqDbaAt30Cm);

/// What else a home knows of a finished turn, sent with its last reading so that hall and home judge the same numbers.
struct Surroundings {
    float leakDb = -120;     ///< what is left of the loudspeaker after removal, relative to the person's voice
    bool roomNormal = false; ///< the room's own level is as it was at the mic check
    bool masked = true;      ///< something else may have covered a voice, or kept the microphone from it
    bool voiceHeard = false; ///< this microphone has heard this person today (mic check or an earlier turn)
    Ceiling ceiling = Ceiling::clear;
    friend bool operator==(const Surroundings&, const Surroundings&) = default;
};

/// The small acknowledged message at the end of a turn.
struct TurnResult {
    Reading reading;
    Surroundings around;
    friend bool operator==(const TurnResult&, const TurnResult&) = default;
};

} // namespace vh
