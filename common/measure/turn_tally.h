#pragma once
// Adds up one turn of one person from 10 ms frames. Allocates nothing, locks nothing; belongs to the thread that
// meters.
//
// Leq is the energy mean over trusted voiced frames: 10 lg(mean of mean squares), full-scale square wave = 0 dB, less
// the person's usual level. Trust: once a second of voice is there to be judged, the share of voiced frames that can be
// trusted; before that, the share of all frames, so that a dead microphone or a noisy room is not taken for silence.
// The reason is the commonest Blank among the frames counted; of equals, the one that stands first in the enum.
#include "common/measure/reading.h"

#include <array>

namespace vh
{

class TurnTally
{
public:
    /// usualDbfsA: the person's usual A-weighted level for this kind of task on this microphone, dB full scale.
    TurnTally(std::uint32_t turnSerial, float usualDbfsA) : m_turnSerial(turnSerial), m_usualDbfsA(usualDbfsA) {}

    void add(const VoiceFrame& frame);
    [[nodiscard]] Reading reading() const;
    /// What is left of the loudspeaker in the voiced frames, trusted or not, relative to the voice in them: energies,
    /// dB. -120: nothing of it; at most +60, also where it sounds and there is no voice.
    [[nodiscard]] float leakDb() const;

private:
    static constexpr std::size_t kBlanks = static_cast<std::size_t>(Blank::setupChanged) + 1;
    using Counts = std::array<std::uint32_t, kBlanks>;

    std::uint32_t m_turnSerial;
    float m_usualDbfsA;
    float m_fastDbfsA = -120;
    double m_trustedEnergy = 0;
    double m_voicedEnergy = 0;
    double m_voicedLeak = 0; ///< of that
    bool m_leaks = false;
    std::uint32_t m_frames = 0;
    std::uint32_t m_voiced = 0;
    Counts m_allBy{};    ///< every frame, by Blank
    Counts m_voicedBy{}; ///< voiced frames, by Blank
};

} // namespace vh
