#include "common/signal/noise_floor.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace vh
{

namespace
{
constexpr double kFrameSeconds = 0.01;
constexpr int kFirstFrames = 20;
constexpr int kHoldFrames = 50;
constexpr int kStretchFrames = 500;
constexpr double kNear = 2.0; // 3 dB
constexpr double kNone = std::numeric_limits<double>::infinity();

double takenIn(double tauSeconds)
{
    return 1.0 - std::exp(-kFrameSeconds / tauSeconds);
}
const double kTakeSmooth = takenIn(0.05);
const double kTakeNear = takenIn(0.5);
const double kTakeFall = takenIn(0.1);
const double kRisePerFrame = std::pow(10.0, 0.6 * kFrameSeconds); // 6 dB/s
} // namespace

NoiseFloor::NoiseFloor() : m_sinceVoice(kHoldFrames)
{
    m_quietest.fill(kNone);
}

void NoiseFloor::push(double meanSquare, bool voiceLike)
{
    m_smooth = m_smooth < 0 ? meanSquare : m_smooth + kTakeSmooth * (meanSquare - m_smooth);
    m_sinceVoice = voiceLike ? 0 : std::min(m_sinceVoice + 1, kHoldFrames);
    const bool mayRise = m_sinceVoice >= kHoldFrames;

    if (m_learnt < kFirstFrames) {
        if (mayRise || (known() && meanSquare < m_floor)) {
            ++m_learnt;
            m_floor += (meanSquare - m_floor) / m_learnt;
        }
    } else if (m_smooth * kNear < m_floor) {
        m_floor += kTakeFall * (m_smooth - m_floor);
    } else if (mayRise) {
        if (m_smooth < m_floor * kNear)
            m_floor += kTakeNear * (m_smooth - m_floor);
        else
            m_floor *= kRisePerFrame;
    }
    noteQuietest();
}

void NoiseFloor::noteQuietest()
{
    m_quietest[m_stretch] = std::min(m_quietest[m_stretch], m_smooth);
    if (++m_inStretch < kStretchFrames)
        return;
    m_inStretch = 0;
    const double quietest = *std::min_element(m_quietest.begin(), m_quietest.end());
    m_stretch = (m_stretch + 1) % kStretches;
    const bool full = m_quietest[m_stretch] != kNone;
    m_quietest[m_stretch] = kNone;
    if (full && quietest > m_floor) {
        m_floor = quietest;
        m_learnt = kFirstFrames;
    }
}

} // namespace vh
