#pragma once
// Presses of a trembling hand: a press within 400 ms of the one before belongs to it, and every such press starts the
// 400 ms anew, so that a burst (tremor, or a key held down that repeats) counts once. Value, one thread.
#include "common/base/clock.h"

#include <optional>

namespace vh
{

class PressFilter
{
public:
    static constexpr Millis kOnePress{400};

    /// True when a press at this moment counts. A clock that went back starts afresh.
    bool accept(Instant at)
    {
        const bool counts = !m_last || at - *m_last >= kOnePress || at < *m_last;
        m_last = at;
        return counts;
    }

private:
    std::optional<Instant> m_last;
};

} // namespace vh
