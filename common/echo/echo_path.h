#pragma once
// How the loudspeaker comes back into the microphone, as far as it has been learnt. Small plain values: a mic check may
// learn them, a spot may keep them, and the next class starts from there.

namespace vh
{

struct EchoPath {
    float delayMs = 0;   ///< from the far end as it was pushed to its first arrival in the microphone
    float leakDb = -120; ///< A-weighted level in the microphone over that of the far end; -120: nothing comes back
    friend bool operator==(const EchoPath&, const EchoPath&) = default;
};

} // namespace vh
