#pragma once
// What source and filter are told every 5 ms: pitch, amplitudes and formants of an utterance, one sound moving into the
// next, with melody, tremor and wander. Pure; any thread.
#include "common/voice/phrase_plan.h"
#include "common/voice/random.h"

namespace vh::voice
{

inline constexpr std::size_t kControlSamples = 240; ///< 5 ms, as Klatt 1980
inline constexpr double kControlSeconds = 0.005;

struct Control {
    double pitchHz = 100;
    double gain = 1;    ///< of everything: contour, tremor and wander
    double voicing = 0; ///< 0..1
    double aspiration = 0;
    double frication = 0;
    double frictionHz = 0;
    double frictionWidthHz = 0;
    bool creaky = false;
    std::array<double, kFormants> hz{};
    std::array<double, kFormants> widthHz{};
};

/// From the first sound to 60 ms behind the last, in which the tract rings out.
[[nodiscard]] std::vector<Control> trackOf(const std::vector<Segment>& segments, const Utterance& utterance,
                                           const VoiceTraits& traits, Random random);

} // namespace vh::voice
