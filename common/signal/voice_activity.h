#pragma once
// Whether a person is voicing, from 10 ms frames. A first version, to be replaced behind this class. The rule: a frame
// is like a voice when
//  - it stands at least 4 dB(A) above the room,
//  - its period repeats (strength 0.5 or more, 60 to 500 Hz),
//  - what it adds to the room is not nearly all below 200 Hz (A-weighted at least 12 dB under C-weighted is mains hum),
//  and
//  - it is not a machine: level within 0.5 dB and period within 0.5 % for 2 s on end. No human voice is that steady.
// Voiced begins with the third such frame in a row and ends 100 ms after the last one, which bridges short consonants.
// Limits: unvoiced sounds by themselves (s, f, whisper) are not voice; onsets come 30 to 60 ms late; a rich steady buzz
// counts as voice for its first 2 s; music and other people's voices count as voice; a room that is louder than the
// voice hides it. Thread: one.
#include "common/signal/noise_floor.h"
#include "common/signal/periodicity.h"

#include <array>

namespace vh
{

class VoiceActivity
{
public:
    struct Frame {
        double meanSquareA = 0;
        double meanSquareC = 0;
        bool still = false; ///< the line is dead in this frame
        Periodicity::Reading periodicity;
    };

    /// True while voiced.
    bool push(const Frame& frame);
    [[nodiscard]] const NoiseFloor& floorA() const { return m_floorA; }

private:
    static constexpr int kStretches = 4; ///< of 0.5 s

    /// The range of level and period over one stretch.
    struct Extent {
        double lowest = 1e9;
        double highest = 0;
        double shortest = 1e9;
        double longest = 0;
    };
    /// Whether sound has been machine-steady up to and with this frame. Forgets everything when it is not periodic.
    bool isMachine(const Frame& frame, bool periodic);

    NoiseFloor m_floorA;
    NoiseFloor m_floorC;
    double m_smoothA = 0;
    std::array<Extent, kStretches> m_extents{};
    int m_stretch = 0;
    int m_inStretch = 0;
    int m_periodicFrames = 0;  ///< on end; counted up to 2 s
    int m_voiceLikeFrames = 0; ///< on end
    int m_hangover = 0;
};

} // namespace vh
