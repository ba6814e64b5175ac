#pragma once
// As steady as a machine: level within 0.5 dB and period within 0.5 % for 2 s on end. No human voice is that steady.
// Frames of 10 ms. Thread: one. The figures: common practice and trial, no published source.
#include <array>

namespace vh
{

class Steadiness
{
public:
    /// Whether sound has been machine-steady up to and with this frame. Forgets everything when it is not periodic.
    bool push(double meanSquare, double periodSeconds, bool periodic);

private:
    static constexpr int kStretches = 4; ///< of 0.5 s

    /// The range of level and period over one stretch.
    struct Extent {
        double lowest = 1e9;
        double highest = 0;
        double shortest = 1e9;
        double longest = 0;
    };

    double m_smooth = 0;
    std::array<Extent, kStretches> m_extents{};
    int m_stretch = 0;
    int m_inStretch = 0;
    int m_periodicFrames = 0; ///< on end; counted up to 2 s
};

} // namespace vh
