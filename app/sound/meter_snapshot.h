#pragma once
// The newest state of the meter, small enough to be copied whole. Values, any thread.
#include "common/signal/voice_frame.h"

#include <cstdint>
#include <optional>

namespace vh::sound
{

struct MeterSnapshot {
    VoiceFrame frame;             ///< the newest 10 ms
    std::uint64_t frameCount = 0; ///< frames since start(); 0: `frame` means nothing yet
};

} // namespace vh::sound
