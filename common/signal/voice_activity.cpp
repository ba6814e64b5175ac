#include "common/signal/voice_activity.h"

#include "common/signal/level.h"

#include <algorithm>
#include <cmath>

namespace vh
{

namespace
{
// The figures below were found on the proving ground (tests/ground, seeds under kFirstUnseenSeed); no published source
// unless one is named.
constexpr double kLowestRoom = 1e-9; // -90 dB: below this lies the converter's own noise
constexpr double kAboveRoomDb = 4;
constexpr double kLeastShareA = 0.0631; // -12 dB: A-weighted this far under C-weighted is rumble or hum
constexpr double kToneShare = 0.6;

/// 0 at `from` and below, 1 at `to` and above.
double ramp(double value, double from, double to)
{
    return std::clamp((value - from) / (to - from), 0.0, 1.0);
}
} // namespace

bool VoiceActivity::isBark(const Frame& frame, bool periodic)
{
    constexpr double kHighHz = 330;
    constexpr double kLittleLow = 0.05;
    constexpr int kLongEnough = 30;
    const bool high = periodic && frame.periodicity.periodSeconds < 1 / kHighHz && frame.shape.lowShare < kLittleLow;
    m_highFrames = high ? std::min(m_highFrames + 1, kLongEnough) : 0;
    return high && m_highFrames < kLongEnough;
}

bool VoiceActivity::isStruck(double levelDb, double roomDb)
{
    constexpr double kJumpDb = 15;
    constexpr double kFromRoomDb = 10;
    constexpr int kMost = 50;
    std::shift_left(std::begin(m_levels), std::end(m_levels), 1);
    m_levels[3] = levelDb;
    ++m_sinceBlow;
    if (levelDb - m_levels[0] >= kJumpDb && m_levels[0] < roomDb + kFromRoomDb && levelDb > m_levels[2]) {
        m_sinceBlow = 0;
        m_blowDb = levelDb;
    } else if (levelDb > m_blowDb) {
        m_blowDb = levelDb;
        m_sinceBlow = std::max(m_sinceBlow, m_sinceBlow > 5 ? kMost : 0);
    }
    return m_sinceBlow < kMost && levelDb < m_blowDb - std::max(5.0, 0.6 * m_sinceBlow);
}

double VoiceActivity::voicedEvidence(const Frame& frame, bool barred)
{
    const double periodic = ramp(frame.periodicity.steady, 0.30, 0.50);
    const bool machine =
        m_steadiness.push(frame.meanSquareA, frame.periodicity.periodSeconds, frame.periodicity.steady >= 0.5);
    const bool bark = isBark(frame, periodic >= 0.5);
    return barred || machine || bark ? 0 : periodic;
}

double VoiceActivity::whisperEvidence(const Frame& frame, bool barred)
{
    constexpr double kTakeBroad = 0.03;
    const bool broad = !barred && frame.shape.excessDb >= 5 && frame.shape.bandsUp >= 7;
    m_broad += kTakeBroad * ((broad ? 1 : 0) - m_broad);
    const double mouth = std::max(ramp(frame.shape.changeDb, 1.8, 2.8), ramp(frame.shape.resonanceDb, 4, 8));
    return broad ? std::min(ramp(m_broad, 0.3, 0.7), mouth) : 0;
}

double VoiceActivity::push(const Frame& frame)
{
    const double roomA = std::max(m_floorA.meanSquare(), kLowestRoom);
    const double roomC = std::max(m_floorC.meanSquare(), kLowestRoom);
    const double addedA = frame.meanSquareA - roomA;
    const double addedC = frame.meanSquareC - roomC;
    const double levelDb = dbOfMeanSquare(frame.meanSquareA);
    const double roomDb = dbOfMeanSquare(roomA);

    const bool struck = isStruck(levelDb, roomDb);
    const bool barred = addedA <= 0 || addedA < kLeastShareA * addedC || frame.shape.toneShare > kToneShare || struck;
    const double core = std::max(voicedEvidence(frame, barred), whisperEvidence(frame, barred));
    m_voiceLike = core >= 0.4;
    // Before there is enough signal to tell, nothing may be learnt: it could be a voice already.
    if (frame.periodicity.ready && !frame.still) {
        m_floorA.push(frame.meanSquareA, m_voiceLike);
        m_floorC.push(frame.meanSquareC, m_voiceLike);
    }

    const bool standsOut = levelDb >= roomDb + kAboveRoomDb;
    double evidence = standsOut ? core : 0;
    m_sinceCore = evidence >= 0.5 ? 0 : std::min(m_sinceCore + 1, 1000);
    if (!barred && m_sinceCore > 0 && m_sinceCore < 25 && frame.shape.excessDb >= 4)
        evidence = std::max(evidence, 0.8);
    m_confidence += (evidence > m_confidence ? 0.35 : 0.05) * (evidence - m_confidence);
    return m_confidence;
}

} // namespace vh
