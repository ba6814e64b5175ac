#pragma once
// The vocal tract: five formants as resonators in cascade for what comes from the glottis, and one resonator for the
// noise of the mouth. Three lanes (pulse, breath in the vowel, breath alone) go through the same formants, so that
// their energies can be balanced afterwards. Thread: one. Source: Klatt 1980, J Acoust Soc Am 67:971, eqs 1 and 2.
#include "common/voice/track.h"

#include <span>

namespace vh::voice
{

/// y[n] = A x[n] + B y[n-1] + C y[n-2], gain 1 at 0 Hz.
struct Resonance {
    double a = 1, b = 0, c = 0;
};
[[nodiscard]] Resonance resonanceAt(double hz, double widthHz);

class Tract3
{
public:
    static constexpr std::size_t kLanes = 3;
    using Lanes = std::array<double, kLanes>;

    /// In place.
    void push(const Control& control, std::span<Lanes> samples);

private:
    std::array<std::array<Lanes, 2>, kFormants> m_past{};
};

class Mouth
{
public:
    /// In place; the noise is differenced, as radiation from the lips does.
    void push(double hz, double widthHz, std::span<double> noise);

private:
    double m_last = 0;
    std::array<double, 2> m_past{};
};

} // namespace vh::voice
