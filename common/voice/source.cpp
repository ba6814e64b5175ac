#include "common/voice/source.h"

#include <algorithm>

namespace vh::voice
{

namespace
{

constexpr double kTiltHz = 3000; // Klatt and Klatt 1990: TL is the loss there
constexpr double kMostSds = 3;
constexpr double kCreakyPitch = 0.6;
constexpr double kDoubleShift = 0.2;
constexpr double kDoubleWeaker = 0.45;
constexpr double kClosedBreath = 0.5;

/// The mean difference of two independent normal numbers is 2/sqrt(pi) of their standard deviation.
double sdOf(double meanDifferencePercent)
{
    return meanDifferencePercent / 100 * std::sqrt(std::numbers::pi) / 2;
}

/// y += take * (x - y) loses `lossDb` at kTiltHz: found by halving, as the gain falls with `take`.
double takeFor(double lossDb)
{
    const double angle = 2 * std::numbers::pi * kTiltHz / kRateHz;
    double low = 1e-4;
    double high = 1;
    for (int i = 0; i < 40; ++i) {
        const double take = (low + high) / 2;
        const double keep = 1 - take;
        const double gain = take * take / (1 - 2 * keep * std::cos(angle) + keep * keep);
        (10 * std::log10(gain) < -lossDb ? low : high) = take;
    }
    return high;
}

} // namespace

Glottis::Glottis(const VoiceTraits& traits, Random random)
    : m_openQuotient(std::clamp(traits.openQuotient, 0.3, 0.8)), m_periodSd(sdOf(traits.jitterPercent)),
      m_amplitudeSd(sdOf(traits.shimmerPercent)), m_take(takeFor(traits.tiltDb)), m_random(random)
{
}

void Glottis::beginPeriod(bool creaky)
{
    double period = 1 + m_periodSd * std::clamp(m_random.normal(), -kMostSds, kMostSds);
    m_amplitude = std::max(0.0, 1 + m_amplitudeSd * std::clamp(m_random.normal(), -kMostSds, kMostSds));
    m_odd = !m_odd;
    if (creaky) {
        period *= (m_odd ? 1 - kDoubleShift : 1 + kDoubleShift) / kCreakyPitch;
        m_amplitude *= m_odd ? 1 : kDoubleWeaker;
    }
    m_speed = 1 / std::max(period, 0.3);
}

void Glottis::push(const Stretch& stretch, std::span<double> pulses, std::span<double> open)
{
    const double slope = (stretch.pitchToHz - stretch.pitchFromHz) / static_cast<double>(pulses.size());
    for (std::size_t i = 0; i < pulses.size(); ++i) {
        const double step = (stretch.pitchFromHz + slope * static_cast<double>(i)) / kRateHz * m_speed;
        double flow = 0;
        open[i] = kClosedBreath;
        const double opensAt = 1 - m_openQuotient;
        if (m_phase > opensAt) {
            const double x = (m_phase - opensAt) / m_openQuotient;
            // The sample in which the folds close counts for the part of it that they were open: less aliasing.
            const double part = std::min(1.0, (1 - m_phase) / step);
            flow = m_amplitude * x * (2 - 3 * x) * part;
            open[i] = 1;
        }
        m_tilted += m_take * (flow - m_tilted);
        pulses[i] = m_tilted;
        m_phase += step;
        if (m_phase >= 1) {
            m_phase -= 1;
            const double before = m_speed;
            beginPeriod(stretch.creaky);
            m_phase *= m_speed / before;
        }
    }
}

} // namespace vh::voice
