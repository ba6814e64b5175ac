#include "common/signal/speech_level.h"

#include "common/signal/level.h"

#include <algorithm>
#include <limits>

namespace vh
{

namespace
{
constexpr double kSmoothingSeconds = 0.03; // P.56, T
constexpr double kHangoverSeconds = 0.2;   // P.56, H
constexpr double kMarginDb = 15.9;         // P.56, M

double thresholdOf(int index)
{
    return std::ldexp(1.0, index - 15);
}
} // namespace

SpeechLevel::SpeechLevel(int sampleRateHz)
    : m_keep(std::exp(-1.0 / (kSmoothingSeconds * sampleRateHz))),
      m_hangover(static_cast<std::int64_t>(std::floor(kHangoverSeconds * sampleRateHz + 0.5)))
{
    restart();
}

void SpeechLevel::restart()
{
    m_first = m_second = m_squares = 0;
    m_count = 0;
    m_reached = 0;
    m_risesAt = thresholdOf(0);
    m_fallsUnder = -1;
    m_counters = {};
}

void SpeechLevel::push(std::span<const float> samples)
{
    const double keep = m_keep;
    const double take = 1.0 - keep;
    double first = m_first;
    double second = m_second;
    double squares = m_squares;
    for (const float sample : samples) {
        const double x = sample;
        squares += x * x;
        first = keep * first + take * std::abs(x);
        second = keep * second + take * first;
        if (second >= m_risesAt || second < m_fallsUnder)
            envelopeMoved(second);
        ++m_count;
    }
    dropDust(first);
    dropDust(second);
    m_first = first;
    m_second = second;
    m_squares = squares;
}

/// The envelope crossed a threshold with the sample numbered m_count.
void SpeechLevel::envelopeMoved(double envelope)
{
    while (m_reached < kThresholds && envelope >= thresholdOf(m_reached)) {
        Counter& counter = m_counters[m_reached++];
        if (counter.below >= 0)
            counter.active += std::min(m_count - counter.below, m_hangover);
        counter.above = m_count;
    }
    while (m_reached > 0 && envelope < thresholdOf(m_reached - 1)) {
        Counter& counter = m_counters[--m_reached];
        counter.active += m_count - counter.above;
        counter.below = m_count;
    }
    m_risesAt = m_reached < kThresholds ? thresholdOf(m_reached) : std::numeric_limits<double>::infinity();
    m_fallsUnder = m_reached > 0 ? thresholdOf(m_reached - 1) : -1;
}

std::int64_t SpeechLevel::activeSamples(int threshold) const
{
    const Counter& counter = m_counters[threshold];
    if (threshold < m_reached)
        return counter.active + m_count - counter.above;
    return counter.below < 0 ? 0 : counter.active + std::min(m_count - counter.below, m_hangover);
}

std::optional<SpeechLevel::Reading> SpeechLevel::reading() const
{
    double lastActiveDb = 0;
    double lastMarginDb = 0;
    for (int j = 0; j < kThresholds; ++j) {
        const std::int64_t active = activeSamples(j);
        if (active == 0)
            return std::nullopt;
        const double activeDb = 10.0 * std::log10(m_squares / static_cast<double>(active));
        const double marginDb = activeDb - 20.0 * std::log10(thresholdOf(j));
        if (marginDb <= kMarginDb) {
            if (j == 0)
                return std::nullopt;
            const double part = (lastMarginDb - kMarginDb) / (lastMarginDb - marginDb);
            const double levelDb = lastActiveDb + part * (activeDb - lastActiveDb);
            const double longTermDb = 10.0 * std::log10(m_squares / static_cast<double>(m_count));
            return Reading{levelDb, longTermDb, std::pow(10.0, (longTermDb - levelDb) / 10.0)};
        }
        lastActiveDb = activeDb;
        lastMarginDb = marginDb;
    }
    return std::nullopt;
}

} // namespace vh
