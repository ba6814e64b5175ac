#pragma once
// The machine's clock, made to run a number of times as fast: for homes of a relay whose clock runs so, too. Any
// thread.
#include "common/base/clock.h"

namespace vh::chorus
{

class SpedClock final : public Clock
{
public:
    explicit SpedClock(double speed) : m_start(m_clock.now()), m_speed(speed) {}
    [[nodiscard]] Instant now() const override
    {
        const double gone = static_cast<double>((m_clock.now() - m_start).count()) * m_speed;
        return m_start + Millis{static_cast<Millis::rep>(gone)};
    }

private:
    SystemClock m_clock;
    Instant m_start;
    double m_speed;
};

} // namespace vh::chorus
