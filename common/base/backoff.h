#pragma once
// How long to wait before a lost line is tried again: full jitter, which spreads a crowd that lost its line in the same
// moment best. Waits are drawn from 0 to a bound that doubles from 0.3 s and stops at 3 s, so that everybody is back
// soon after a relay that was away only for a moment. Plain value; the random number is handed in.
// Source: M. Brooker, "Exponential Backoff And Jitter", AWS Architecture Blog, 2015: sleep = random(0, min(cap, base *
// 2^attempt)). The figures are the house's choice.
#include "common/base/clock.h"

#include <algorithm>

namespace vh
{

class Backoff
{
public:
    static constexpr Millis kFirst{300};
    static constexpr Millis kLongest{3000};

    /// `random`: evenly from 0 to 1; what lies outside counts as the nearer end.
    Millis next(double random)
    {
        const double bound = static_cast<double>(m_bound.count());
        m_bound = std::min(m_bound * 2, kLongest);
        return Millis{static_cast<Millis::rep>(bound * std::clamp(random, 0.0, 1.0))};
    }
    /// The line is good again: the next loss begins anew.
    void reset() { m_bound = kFirst; }

private:
    Millis m_bound = kFirst;
};

} // namespace vh
