#include "common/sound/line_watch.h"

#include <algorithm>
#include <limits>

namespace vh
{

namespace
{
constexpr double kNever = std::numeric_limits<double>::infinity();
}

void LineWatch::restart()
{
    *this = {};
    m_fast.fill(kNever);
    m_fastNow = kNever;
}

void LineWatch::saw(double transit)
{
    if (!m_knows)
        restart();
    m_knows = true;
    m_fastNow = std::min(m_fastNow, transit);
    m_someNow = true;
    const double lateness = transit - fastest();
    // A stall ends with a burst, whose last frames are late by less and less.
    if (lateness > kStall)
        m_stalled = true;
    else if (lateness < kLeast)
        m_stalled = false;
    if (!m_stalled)
        m_worstNow = std::max(m_worstNow, lateness);
}

void LineWatch::second()
{
    m_worst[m_second++ % kSeconds] = m_worstNow;
    m_worstNow = 0;
    if (m_someNow)
        m_fast[m_fastSecond++ % kFastSeconds] = m_fastNow;
    if (m_someNow)
        m_fastNow = kNever;
    m_someNow = false;
}

double LineWatch::fastest() const
{
    return std::min(m_fastNow, *std::ranges::min_element(m_fast));
}

double LineWatch::allowance() const
{
    const double worst = std::max(m_worstNow, *std::ranges::max_element(m_worst));
    return std::clamp(worst + kMargin, kLeast, kMost);
}

} // namespace vh
