#include "common/signal/steadiness.h"

#include <algorithm>

namespace vh
{

namespace
{
constexpr double kSteadyLevel = 1.122; // 0.5 dB
constexpr double kSteadyPeriod = 1.005;
constexpr int kStretchFrames = 50;
constexpr double kTakeSmooth = 0.1; // of each frame: about 100 ms
} // namespace

bool Steadiness::push(double meanSquare, double periodSeconds, bool periodic)
{
    m_smooth += kTakeSmooth * (meanSquare - m_smooth);
    if (!periodic) {
        m_periodicFrames = 0;
        return false;
    }
    if (m_periodicFrames == 0) {
        m_extents = {};
        m_stretch = m_inStretch = 0;
    } else if (++m_inStretch == kStretchFrames) {
        m_inStretch = 0;
        m_stretch = (m_stretch + 1) % kStretches;
        m_extents[static_cast<std::size_t>(m_stretch)] = {};
    }
    Extent& now = m_extents[static_cast<std::size_t>(m_stretch)];
    now.lowest = std::min(now.lowest, m_smooth);
    now.highest = std::max(now.highest, m_smooth);
    now.shortest = std::min(now.shortest, periodSeconds);
    now.longest = std::max(now.longest, periodSeconds);
    m_periodicFrames = std::min(m_periodicFrames + 1, kStretchFrames * kStretches);
    if (m_periodicFrames < kStretchFrames * kStretches)
        return false;

    Extent whole;
    for (const Extent& extent : m_extents) {
        whole.lowest = std::min(whole.lowest, extent.lowest);
        whole.highest = std::max(whole.highest, extent.highest);
        whole.shortest = std::min(whole.shortest, extent.shortest);
        whole.longest = std::max(whole.longest, extent.longest);
    }
    return whole.highest <= whole.lowest * kSteadyLevel && whole.longest <= whole.shortest * kSteadyPeriod;
}

} // namespace vh
