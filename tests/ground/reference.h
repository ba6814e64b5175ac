#pragma once
// An outside voice activity detector to stand beside ours: that of webrtc-audio-processing 0.3 (Debian), asked through
// AudioProcessing::voice_detection(). It gives one answer every 10 ms, frame size 10 ms, and has four settings. Thread:
// one.
#include "tests/ground/sound.h"

namespace vh::ground
{

inline constexpr int kReferenceSettings = 4; ///< 0: very low likelihood .. 3: high likelihood, which hears most

/// One answer per 10 ms of sound at kVoiceRateHz. Empty if the library would not start.
std::vector<bool> referenceVoice(std::span<const float> samples, int setting);

} // namespace vh::ground
