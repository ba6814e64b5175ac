#include "common/signal/periodicity.h"

#include <algorithm>
#include <cmath>

namespace vh
{

namespace
{
constexpr double kThinRateHz = 4000.0;
constexpr double kHighestHz = 1000.0;
constexpr double kLowestHz = 60.0; // the search range for this group of speakers begins here
constexpr double kWindowSeconds = 0.04;
constexpr double kLowCutHz = 80.0;
constexpr double kHighCutHz = 1100.0;
/// Of several nearly equal peaks (a period and its multiples) the shortest is the period.
constexpr double kNearlyAsStrong = 0.9;
constexpr double kNoEnergy = 1e-16;
constexpr double kTake = 0.25; // of each frame, into the averaged correlation: about 40 ms

/// Four running sums, so that the processor need not wait for each addition.
float dot(const float* a, const float* b, std::size_t count)
{
    float sums[4] = {};
    std::size_t i = 0;
    for (; i + 4 <= count; i += 4) {
        for (std::size_t k = 0; k < 4; ++k)
            sums[k] += a[i + k] * b[i + k];
    }
    for (; i < count; ++i)
        sums[0] += a[i] * b[i];
    return (sums[0] + sums[1]) + (sums[2] + sums[3]);
}
} // namespace

Periodicity::Periodicity(int sampleRateHz)
    : m_thinning(std::max(1, static_cast<int>(std::lround(sampleRateHz / kThinRateHz)))),
      m_thinRateHz(static_cast<double>(sampleRateHz) / m_thinning),
      m_shortest(static_cast<std::size_t>(std::floor(m_thinRateHz / kHighestHz))),
      m_longest(static_cast<std::size_t>(std::ceil(m_thinRateHz / kLowestHz))),
      m_window(static_cast<std::size_t>(std::lround(kWindowSeconds * m_thinRateHz))),
      m_highCut(butterworthLowPass(kHighCutHz, sampleRateHz)), m_highCutAgain(m_highCut), m_lowCut(butterworthHighPass(kLowCutHz, m_thinRateHz)),
      m_past(m_longest + m_window), m_fresh(static_cast<std::size_t>(sampleRateHz / 100 / m_thinning + 1)),
      m_strengths(m_longest - m_shortest + 1)
{
}

void Periodicity::thin(std::span<const double> frame)
{
    std::size_t count = 0;
    for (const double sample : frame) {
        const double smooth = m_highCutAgain.push(m_highCut.push(sample));
        if (++m_phase == m_thinning) {
            m_phase = 0;
            m_fresh[count++] = static_cast<float>(m_lowCut.push(smooth));
        }
    }
    m_highCut.tidy();
    m_highCutAgain.tidy();
    m_lowCut.tidy();
    std::copy(m_past.begin() + static_cast<std::ptrdiff_t>(count), m_past.end(), m_past.begin());
    std::copy_n(m_fresh.begin(), count, m_past.end() - static_cast<std::ptrdiff_t>(count));
    m_filled = std::min(m_filled + count, m_past.size());
}

double Periodicity::strengthAt(std::size_t lag, double newestEnergy, double olderEnergy) const
{
    const float* newest = m_past.data() + m_longest;
    return dot(newest, newest - lag, m_window) / std::sqrt(newestEnergy * olderEnergy);
}

double Periodicity::correlate()
{
    const float* newest = m_past.data() + m_longest;
    const double newestEnergy = dot(newest, newest, m_window);
    double olderEnergy = dot(newest - m_shortest, newest - m_shortest, m_window);
    double strongest = 0;
    for (std::size_t lag = m_shortest; lag <= m_longest; ++lag) {
        double strength = 0;
        if (newestEnergy > kNoEnergy && olderEnergy > kNoEnergy)
            strength = strengthAt(lag, newestEnergy, olderEnergy);
        double& averaged = m_strengths[lag - m_shortest];
        averaged += kTake * (strength - averaged);
        dropDust(averaged);
        strongest = std::max(strongest, strength);
        if (lag == m_longest)
            break;
        // the older window moves back by one sample
        const double entering = *(newest - lag - 1);
        const double leaving = *(newest + m_window - lag - 1);
        olderEnergy += entering * entering - leaving * leaving;
    }
    return std::min(strongest, 1.0);
}

Periodicity::Reading Periodicity::push(std::span<const double> frame)
{
    thin(frame);
    if (m_filled < m_past.size())
        return {};
    Reading reading{.ready = true, .strength = correlate()};
    reading.steady = std::clamp(*std::max_element(m_strengths.begin(), m_strengths.end()), 0.0, 1.0);
    if (reading.steady <= 0)
        return reading;

    for (std::size_t i = 0; i < m_strengths.size(); ++i) {
        const double here = m_strengths[i];
        const double before = i > 0 ? m_strengths[i - 1] : here;
        const double after = i + 1 < m_strengths.size() ? m_strengths[i + 1] : here;
        if (here < kNearlyAsStrong * reading.steady || here < before || here < after)
            continue;
        const double bend = before - 2.0 * here + after; // a parabola through three points places the peak between lags
        const double shift = i > 0 && i + 1 < m_strengths.size() && bend < 0 ? 0.5 * (before - after) / bend : 0.0;
        reading.periodSeconds = (static_cast<double>(m_shortest + i) + shift) / m_thinRateHz;
        break;
    }
    return reading;
}

} // namespace vh
