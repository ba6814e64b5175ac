#include "common/echo/alignment.h"

#include <algorithm>
#include <cmath>

namespace vh
{

namespace
{
constexpr std::size_t kWholeStretch = 16'320; // about a second
constexpr std::size_t kFarthest = 9'920;      // 620 ms
constexpr std::size_t kNearStretch = 7'680;
constexpr std::size_t kNearFarthest = 480; // 30 ms
constexpr int kLookEvery = 40;             // blocks of speech between two looks
constexpr int kNearEvery = 24;
/// Of chance peaks the highest of 5000 stands 3.9 standard deviations out (normal distribution).
constexpr double kStrong = 7;
constexpr double kStrongNear = 5;
constexpr double kSame = 24;        // samples: two finds of one delay, one of them drifted for half a second
constexpr double kFirstAstray = 60; // samples, while little is known
constexpr double kAstray = 4;       // samples, later
constexpr int kKnownFrom = 6;       // measurements
constexpr int kMemory = 48;         // measurements
constexpr int kMissesToLose = 4;
constexpr int kLooksForNothing = 6;
constexpr double kMostDrift = 700e-6;
constexpr double kSlew = 150e-6; // how fast corrections are read in, beside the drift
} // namespace

Alignment::Alignment(std::size_t ahead)
    : m_far(kWholeStretch, kFarthest), m_near(kNearStretch, kNearFarthest), m_ahead(static_cast<double>(ahead))
{
    restart();
}

void Alignment::restart()
{
    m_line.restart();
    lose();
}

void Alignment::lose()
{
    m_state = State::searching;
    m_measured = 0;
    m_missed = 0;
    m_silentLooks = 0;
    m_candidate.reset();
    m_drift = 0;
    m_delay = 0;
    m_readAt = m_ahead + FarLine::kLeastDelay;
    m_far.restart();
    m_spoken = 0;
}

void Alignment::begin(double delay)
{
    lose();
    lock(delay);
    m_measured = 0; // to be seen
}

void Alignment::lock(double delay)
{
    m_state = State::found;
    m_delay = delay;
    m_drift = 0;
    m_measured = 1;
    m_missed = 0;
    m_sinceMeasured = 0;
    m_readAt = std::max(delay - kMargin, m_ahead + FarLine::kLeastDelay);
    m_near.restart();
    m_spoken = 0;
}

void Alignment::push(std::span<const float> far, std::span<float> out)
{
    m_line.write(far);
    double perSample = 0;
    if (m_state == State::found) {
        m_delay += m_drift * kBlock;
        ++m_sinceMeasured;
        const double wanted = std::max(m_delay - kMargin, m_ahead + FarLine::kLeastDelay);
        const double off = wanted - (m_readAt + m_drift * kBlock);
        perSample = m_drift + std::clamp(off / kBlock, -kSlew, kSlew);
        m_readAt += perSample * kBlock;
    }
    m_block = (m_block + 1) % kHistory;
    m_wasReadAt[m_block] = m_readAt;
    m_line.read(out, m_readAt - m_ahead, perSample);
}

bool Alignment::compare(std::span<const float> moved, std::span<const float> mic, bool speaks)
{
    m_spoken += speaks ? 1 : 0;
    if (m_state == State::found) {
        m_near.push(moved, mic);
        return m_spoken >= kNearEvery && follow();
    }
    m_far.push(moved, mic);
    return m_spoken >= kLookEvery && search();
}

/// Two looks in a row that agree.
bool Alignment::search()
{
    m_spoken = 0;
    const auto found = m_far.find();
    if (!found)
        return false;
    if (found->strength < kStrong) {
        m_candidate.reset();
        if (++m_silentLooks >= kLooksForNothing)
            m_state = State::nothing;
        return false;
    }
    const double delay = found->delay + m_readAt;
    if (m_candidate && std::abs(delay - *m_candidate) < kSame) {
        lock(delay);
        return true;
    }
    m_candidate = delay;
    return false;
}

bool Alignment::follow()
{
    const auto found = m_near.find();
    if (!found)
        return false; // m_spoken stays: at the next block, then
    m_spoken = 0;
    // The middle of what was looked at, and one block for being told late.
    constexpr double kBlocksAgo = kNearStretch / 2.0 / kBlock + 1;
    const double measured =
        m_wasReadAt[(m_block + kHistory - static_cast<std::size_t>(kBlocksAgo)) % kHistory] + found->delay;
    const double expected = m_delay - m_drift * kBlock * kBlocksAgo;
    const double limit = m_measured < kKnownFrom ? kFirstAstray : kAstray;
    if (found->strength < kStrongNear || std::abs(measured - expected) > limit) {
        if (++m_missed >= kMissesToLose)
            lose();
        return false;
    }
    m_missed = 0;
    correct(measured - expected, kBlocksAgo);
    return false;
}

void Alignment::correct(double error, double blocksAgo)
{
    const double n = std::min(++m_measured, kMemory);
    const double take = 2 * (2 * n - 1) / (n * (n + 1));
    const double takeDrift = n < 2 ? 0 : 6 / (n * (n + 1));
    const double passed = std::max<double>(static_cast<double>(m_sinceMeasured), 1) * kBlock;
    const double drift = std::clamp(m_drift + takeDrift * error / passed, -kMostDrift, kMostDrift);
    m_delay += take * error + (drift - m_drift) * kBlock * blocksAgo;
    m_drift = drift;
    m_sinceMeasured = 0;
}

} // namespace vh
