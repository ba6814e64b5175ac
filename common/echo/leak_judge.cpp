#include "common/echo/leak_judge.h"

#include "common/signal/level.h"

#include <algorithm>
#include <cmath>

namespace vh
{

namespace
{
constexpr double kTake = 0.35;      // about 25 ms
constexpr double kTailKeeps = 0.85; // 0.7 dB a frame: 60 dB in 0.85 s
constexpr double kTailShare = 0.3;
constexpr double kNoEcho = 0.1;     // of the room: cannot be heard in it
constexpr double kAboveEcho = 4;    // 6 dB
constexpr double kAboveRest = 2.5;  // 4 dB over the upper end of what remains
constexpr double kTrustedAbove = 5; // 7 dB
constexpr double kCopy = 0.5;
constexpr int kSurelyAfter = 8; // frames
} // namespace

void UpperEnd::push(double db)
{
    ++m_count;
    const double step = std::max(0.15, 6.0 / (1 + 0.1 * m_count));
    m_db += db > m_db ? 0.9 * step : -0.1 * step;
    m_db = std::clamp(m_db, -40.0, 40.0);
}

double UpperEnd::ratio() const
{
    return std::pow(10.0, m_db / 10);
}

void LeakJudge::restart()
{
    *this = LeakJudge{};
}

void LeakJudge::learn(const Frame& frame, double echo)
{
    if (frame.removed && echo > frame.room)
        m_remains.push(10 * std::log10(std::max(m_rest - frame.room, 1e-3 * echo) / echo));
}

LeakJudge::Verdict LeakJudge::push(const Frame& frame)
{
    m_rest += kTake * (frame.rest - m_rest);
    m_echo += kTake * (frame.echo - m_echo);
    m_tail = std::max(m_echo, m_tail * kTailKeeps);
    const double echo = std::max({m_echo, frame.echo, kTailShare * m_tail});
    Verdict verdict;
    verdict.whose = frame.voiced ? Whose::person : Whose::room;
    if (echo <= 0)
        return verdict;
    const double remains = echo * (frame.removed ? m_remains.ratio() : 1);
    verdict.leak = std::min(remains, frame.rest);
    if (echo < kNoEcho * frame.room) {
        ++m_quiet;
        return verdict;
    }
    const double rest = std::max(m_rest, frame.rest);
    m_most = std::max({m_most * kTailKeeps, echo, frame.echoAtMost});
    if (rest - frame.room > kAboveEcho * m_most) {
        m_quiet = 0;
        verdict.person = true;
        verdict.trusted = frame.rest > kTrustedAbove * remains;
        return verdict;
    }
    if (rest - frame.room < kAboveRest * remains) {
        verdict.whose = Whose::loudspeaker;
        verdict.leak = std::max(0.0, frame.rest - frame.room);
        verdict.surely = ++m_quiet >= kSurelyAfter;
        learn(frame, echo);
        return verdict;
    }
    if (frame.coherence > kCopy) {
        verdict.changed = frame.removed;
        verdict.whose = frame.voiced ? Whose::cantTell : Whose::loudspeaker;
        verdict.trusted = false;
        verdict.leak = std::max(0.0, frame.rest - frame.room);
        learn(frame, echo);
        return verdict;
    }
    m_quiet = 0;
    verdict.trusted = frame.rest > kTrustedAbove * remains;
    if (frame.voiced && !verdict.trusted)
        verdict.whose = Whose::both;
    return verdict;
}

} // namespace vh
