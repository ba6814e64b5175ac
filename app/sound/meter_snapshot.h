#pragma once
// The newest state of the meter, small enough to be copied whole. Values, any thread.
#include "common/echo/echo_path.h"
#include "common/signal/voice_frame.h"

#include <cstdint>

namespace vh::sound
{

struct MeterSnapshot {
    VoiceFrame frame;             ///< the newest 10 ms
    std::uint64_t frameCount = 0; ///< frames since start(); 0: `frame` means nothing yet
    bool pathKnown = false;
    EchoPath path; ///< where pathKnown: from the far end, as it is read with the microphone, into the microphone
};

} // namespace vh::sound
