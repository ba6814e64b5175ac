#include "common/voice/tract.h"

#include "common/signal/level.h"

#include <cmath>

namespace vh::voice
{

Resonance resonanceAt(double hz, double widthHz)
{
    const double r = std::exp(-std::numbers::pi * widthHz / kRateHz);
    Resonance resonance;
    resonance.c = -r * r;
    resonance.b = 2 * r * std::cos(2 * std::numbers::pi * hz / kRateHz);
    resonance.a = 1 - resonance.b - resonance.c;
    return resonance;
}

void Tract3::push(const Control& control, std::span<Lanes> samples)
{
    for (std::size_t f = 0; f < kFormants; ++f) {
        const Resonance at = resonanceAt(control.hz[f], control.widthHz[f]);
        Lanes once = m_past[f][0];
        Lanes twice = m_past[f][1];
        for (Lanes& sample : samples) {
            for (std::size_t lane = 0; lane < kLanes; ++lane) {
                const double out = at.a * sample[lane] + at.b * once[lane] + at.c * twice[lane];
                twice[lane] = once[lane];
                once[lane] = out;
                sample[lane] = out;
            }
        }
        for (std::size_t lane = 0; lane < kLanes; ++lane) {
            dropDust(once[lane]);
            dropDust(twice[lane]);
        }
        m_past[f] = {once, twice};
    }
}

void Mouth::push(double hz, double widthHz, std::span<double> noise)
{
    const Resonance at = resonanceAt(hz, widthHz);
    for (double& sample : noise) {
        const double out = at.a * (sample - m_last) + at.b * m_past[0] + at.c * m_past[1];
        m_last = sample;
        m_past[1] = m_past[0];
        m_past[0] = out;
        sample = out;
    }
    dropDust(m_past[0]);
    dropDust(m_past[1]);
}

} // namespace vh::voice
