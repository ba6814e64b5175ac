#include "common/measure/turn_tally.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>

namespace vh
{

namespace
{

float tenths(double db)
{
    return static_cast<float>(std::lround(std::clamp(db, -200.0, 200.0) * 10)) / 10.0F;
}

} // namespace

void TurnTally::add(const VoiceFrame& frame)
{
    const auto blank = static_cast<std::size_t>(frame.blank) % kBlanks;
    m_fastDbfsA = frame.fastDbfsA;
    ++m_frames;
    ++m_allBy[blank];
    m_leaks = m_leaks || frame.leakMeanSquareA > 0;
    if (!frame.voiced)
        return;
    m_voicedEnergy += static_cast<double>(frame.meanSquareA);
    m_voicedLeak += static_cast<double>(frame.leakMeanSquareA);
    ++m_voiced;
    ++m_voicedBy[blank];
    if (frame.blank == Blank::none)
        m_trustedEnergy += static_cast<double>(frame.meanSquareA);
}

Reading TurnTally::reading() const
{
    constexpr auto kTrusted = static_cast<std::size_t>(Blank::none);
    constexpr std::uint32_t kMs = VoiceFrame::kMilliseconds;

    Reading reading;
    reading.turnSerial = m_turnSerial;
    reading.elapsedMs = m_frames * kMs;
    reading.heardMs = m_voiced * kMs;
    reading.voicedMs = m_voicedBy[kTrusted] * kMs;
    reading.nowOverUsualDb = tenths(static_cast<double>(m_fastDbfsA) - m_usualDbfsA);
    if (m_trustedEnergy > 0) {
        const double leqDbfsA = 10 * std::log10(m_trustedEnergy / m_voicedBy[kTrusted]);
        reading.leqOverUsualDb = tenths(leqDbfsA - m_usualDbfsA);
    } else {
        reading.voicedMs = 0; // voice without energy is no voice: there is no level to give
    }

    const Counts& counted = reading.heardMs >= kVoiceToJudgeMs ? m_voicedBy : m_allBy;
    const std::uint32_t total = std::accumulate(counted.begin(), counted.end(), 0U);
    if (total > 0)
        reading.trustPercent =
            static_cast<std::uint8_t>(std::uint64_t{100} * counted[kTrusted] / total); // rounded down: never flattering
    std::size_t commonest = kTrusted;
    for (std::size_t i = kTrusted + 1; i < kBlanks; ++i) {
        if (counted[i] > 0 && (commonest == kTrusted || counted[i] > counted[commonest]))
            commonest = i;
    }
    reading.reason = static_cast<Blank>(commonest);
    return reading;
}

float TurnTally::leakDb() const
{
    constexpr double kNone = -120;
    constexpr double kAll = 60;
    const double voice = m_voicedEnergy - m_voicedLeak;
    if (!m_leaks || (m_voicedLeak <= 0 && m_voicedEnergy > 0))
        return static_cast<float>(kNone);
    if (voice <= 0)
        return static_cast<float>(kAll);
    return static_cast<float>(std::clamp(10 * std::log10(m_voicedLeak / voice), kNone, kAll));
}

Ceiling ceilingOf(float leqDbaAt30Cm)
{
    if (leqDbaAt30Cm > kCeilingDbaAt30Cm)
        return Ceiling::over;
    return leqDbaAt30Cm >= kCeilingDbaAt30Cm - 1 ? Ceiling::reached : Ceiling::clear;
}

} // namespace vh
