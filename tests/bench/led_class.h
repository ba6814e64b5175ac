#pragma once
// A class led by somebody who speaks, hears and presses keys, through the very state machine that a hall uses
// (common/live/class_moves). What she and the people need for a text comes from a speech synthesiser (read_aloud.h),
// not from the plan. She follows the clock, and presses only where the clock is plainly wrong:
//  - she, or more than a quarter of the people, is not done when a turn ends: she holds the clock until they are;
//  - nearly all have been done for a while in the last turn of a round: she goes on.
// Movements, held sounds, talk and water take the time the clock gives them. Nothing here is random. Thread: one.
#include "common/live/pace_trace.h"
#include "tests/bench/read_aloud.h"

namespace vh::bench
{

struct LeaderManner {
    int wordsPerMinute = kClearWordsPerMinute; ///< hers; the people's own paces spread around it
    Millis onset{600};     ///< from the turn's beginning to the first sound: reading begins after about half a second
                           ///< (from memory)
    Millis heldVowel{800}; ///< a marked vowel is longer by so much, as in the demo's voice (common/voice)
    Millis reaction{700};  ///< from seeing that all are done to the press
    Millis beat{1500};     ///< of silence before she goes on early
    double paceSpread = 0.15; ///< of the people's paces around hers: standard deviation of the logarithm, a choice
};

struct LedClass {
    ClassTrace trace;
    Millis actual{0};
    int holds = 0;
    int goneOn = 0;
    PaceSample read; ///< the turns whose length is that of a text: what was planned for them, and what was needed
};
Result<LedClass> lead(const ClassScript& script, ReadAloud& readAloud, const LeaderManner& manner = {});

} // namespace vh::bench
