#include "common/signal/voice_activity.h"

#include <algorithm>

namespace vh
{

namespace
{
// The figures of the rule in the header: common practice and trial on synthetic voices, no published source.
constexpr double kAboveRoom = 2.512; // 4 dB
constexpr double kStrength = 0.5;
constexpr double kLeastShareA = 0.0631; // -12 dB
constexpr double kLowestRoom = 1e-9;    // -90 dB: below this lies the converter's own noise
constexpr double kSteadyLevel = 1.122;  // 0.5 dB
constexpr double kSteadyPeriod = 1.005;
constexpr int kStretchFrames = 50;
constexpr int kOnsetFrames = 3;
constexpr int kHangoverFrames = 10;
constexpr double kTakeSmooth = 0.1; // of each frame: about 100 ms
} // namespace

bool VoiceActivity::isMachine(const Frame& frame, bool periodic)
{
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
        m_extents[m_stretch] = {};
    }
    Extent& now = m_extents[m_stretch];
    now.lowest = std::min(now.lowest, m_smoothA);
    now.highest = std::max(now.highest, m_smoothA);
    now.shortest = std::min(now.shortest, frame.periodicity.periodSeconds);
    now.longest = std::max(now.longest, frame.periodicity.periodSeconds);
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

bool VoiceActivity::push(const Frame& frame)
{
    m_smoothA += kTakeSmooth * (frame.meanSquareA - m_smoothA);
    const double roomA = std::max(m_floorA.meanSquare(), kLowestRoom);
    const double roomC = std::max(m_floorC.meanSquare(), kLowestRoom);
    const double addedA = frame.meanSquareA - roomA;
    const double addedC = frame.meanSquareC - roomC;

    const bool periodic = frame.periodicity.strength >= kStrength;
    const bool machine = isMachine(frame, periodic);
    const bool hum = addedA < kLeastShareA * addedC;
    const bool voiceLike = periodic && !machine && !hum && addedA > 0;
    // Before there is enough signal to tell, nothing may be learnt: it could be a voice already.
    if (frame.periodicity.ready && !frame.still) {
        m_floorA.push(frame.meanSquareA, voiceLike);
        m_floorC.push(frame.meanSquareC, voiceLike);
    }

    const bool heard = voiceLike && frame.meanSquareA >= roomA * kAboveRoom;
    m_voiceLikeFrames = heard ? std::min(m_voiceLikeFrames + 1, kOnsetFrames) : 0;
    if (m_voiceLikeFrames >= kOnsetFrames || (heard && m_hangover > 0))
        m_hangover = kHangoverFrames + 1;
    if (m_hangover > 0)
        --m_hangover;
    return m_hangover > 0;
}

} // namespace vh
