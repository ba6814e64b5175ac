#pragma once
// An utterance on its time line: sounds with their lengths, before any of them is smoothed into the next. Pure; any
// thread.
#include "common/voice/phones.h"

namespace vh::voice
{

struct Segment {
    Phone phone = Phone::pause;
    Phone to = Phone::pause; ///< where a diphthong goes; else the same
    double seconds = 0;
    double voicing = 0;
    double aspiration = 0;
    double frication = 0;
    bool nucleus = false;
    bool held = false; ///< a stretched vowel

    [[nodiscard]] bool isPause() const { return phone == Phone::pause; }
};

/// Without what comes before it. Empty when there is nothing to say.
[[nodiscard]] std::vector<Segment> segmentsOf(const Utterance& utterance, const VoiceTraits& traits);

} // namespace vh::voice
