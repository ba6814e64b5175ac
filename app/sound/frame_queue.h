#pragma once
// Frames from the meter's thread to the GUI thread. 40 s lie unread when it is full; a reader that far behind is stuck.
#include "app/sound/spsc_queue.h"
#include "common/signal/voice_frame.h"

namespace vh::sound
{

using FrameQueue = SpscQueue<VoiceFrame, 4096>;

} // namespace vh::sound
