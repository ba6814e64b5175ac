#pragma once
// The level of the room without the voice, as a mean square, tracked from 10 ms frames. The rule:
//  - it follows frames near it (within 3 dB) evenly, so in steady noise it is the mean, not the lowest dip;
//  - it falls fast (0.1 s) when the sound drops below it: every pause shows the room;
//  - it rises at most 6 dB/s, and only while nothing like a voice was heard for half a second: a vowel held for 15 s,
//  or
//    for a minute, does not move it;
//  - and whatever it was told, it is not below the quietest moment of the last 40 to 45 s: nobody goes that long
//  without
//    drawing breath (the longest group means of sustained vowels in healthy older adults are 23 s: Maslan et al. 2011,
//    J Voice 25:709), so what never dips in that time is the room.
// Where it starts: the mean of the first 0.2 s that do not sound like a voice. Thread: one.
#include <array>

namespace vh
{

class NoiseFloor
{
public:
    NoiseFloor();

    /// One frame; `voiceLike` holds its rise back. Do not push frames of a dead line: they say nothing of the room.
    void push(double meanSquare, bool voiceLike);
    [[nodiscard]] bool known() const { return m_learnt > 0; }
    /// Mean square; 0 while not known.
    [[nodiscard]] double meanSquare() const { return m_floor; }

private:
    static constexpr int kStretches = 9; ///< of 5 s

    void noteQuietest();

    double m_smooth = -1; ///< < 0: nothing yet
    double m_floor = 0;
    int m_learnt = 0; ///< frames that went into the first mean
    int m_sinceVoice;
    std::array<double, kStretches> m_quietest; ///< ring; the stretch going on is m_stretch
    int m_stretch = 0;
    int m_inStretch = 0;
};

} // namespace vh
