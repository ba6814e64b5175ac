#pragma once
// What is played on the loudspeaker in the mic check: a short line, an even vowel, and one that fades away. Spoken by
// the synthetic voice; always the same. Some 10 s, 48 kHz mono, peaks well under full scale. Pure; any thread; takes a
// tenth of a second or so to make.
#include "common/home/played_probe.h"

#include <vector>

namespace vh
{

struct ProbeSound {
    std::vector<float> samples;
    ProbeLayout layout;
};

[[nodiscard]] ProbeSound makeProbeSound();

} // namespace vh
