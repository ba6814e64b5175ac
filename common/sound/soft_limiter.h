#pragma once
// Keeps a sum of sounds within full scale without wrapping or hard corners: straight up to 0.7 (-3 dB), bent above it,
// never beyond 1. No memory, no delay. A tanh knee; common practice. Pure; any thread.
#include <cmath>
#include <span>

namespace vh
{

inline float softLimited(float sample)
{
    constexpr float kKnee = 0.7F;
    const float size = std::abs(sample);
    if (size <= kKnee)
        return sample;
    if (!(size < 1e9F)) // not a number, or no sound at all
        return 0;
    const float bent = kKnee + (1 - kKnee) * std::tanh((size - kKnee) / (1 - kKnee));
    return std::copysign(bent, sample);
}

inline void softLimit(std::span<float> samples)
{
    for (float& sample : samples)
        sample = softLimited(sample);
}

} // namespace vh
