#pragma once
// How long to wait before the next try: the ceiling doubles from 0.3 s to 10 s, and the wait is anywhere below it (full
// jitter), so that thousands of homes do not come back in step. Value; the chance is handed in.
// Source: exponential backoff with full jitter, common practice.
#include "common/base/clock.h"

#include <algorithm>

namespace vh
{

class Backoff
{
public:
    static constexpr Millis kFirst{300};
    static constexpr Millis kMost{10'000};

    /// `chance`: evenly from [0, 1). The wait lies in [0, ceiling).
    Millis next(double chance)
    {
        const Millis wait{static_cast<Millis::rep>(static_cast<double>(m_ceiling.count()) * chance)};
        m_ceiling = std::min(m_ceiling * 2, kMost);
        return wait;
    }
    /// It worked: the next trouble starts from the beginning.
    void reset() { m_ceiling = kFirst; }

private:
    Millis m_ceiling = kFirst;
};

} // namespace vh
