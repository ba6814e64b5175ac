#pragma once
// Drawing breath before speaking: noise through a wide resonance, swelling and dying away. Internal to the voice.
#include "common/voice/random.h"
#include "common/voice/voice.h"

namespace vh::voice
{

/// At the very end of `sound`, over what is there; labelled. Level: A-weighted Leq, dB re full scale.
void inhale(double seconds, double levelDbfsA, Random random, Sound& sound);

} // namespace vh::voice
