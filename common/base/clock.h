#pragma once
// Time as everything in common sees it: an Instant that somebody hands in. Nothing here reads a clock by itself.
#include <chrono>

namespace vh
{

using Millis = std::chrono::milliseconds;
/// A moment of server time: milliseconds since the Unix epoch. Within one run of a program it never goes back.
using Instant = std::chrono::sys_time<Millis>;

/// Where programs get their Instants from. Thread: any; implementations are free of shared state or lock it themselves.
class Clock
{
public:
    Clock() = default;
    Clock(const Clock&) = delete;
    Clock& operator=(const Clock&) = delete;
    virtual ~Clock() = default;
    [[nodiscard]] virtual Instant now() const = 0;
    /// How many of its milliseconds pass in one of the machine's; timers divide by it.
    [[nodiscard]] virtual double speed() const { return 1.0; }
};

/// The machine's clock: wall time read once at construction, carried on by the steady clock, so it never jumps.
class SystemClock final : public Clock
{
public:
    [[nodiscard]] Instant now() const override
    {
        const auto gone = std::chrono::steady_clock::now() - m_steadyStart;
        return m_wallStart + std::chrono::duration_cast<Millis>(gone);
    }

private:
    std::chrono::steady_clock::time_point m_steadyStart = std::chrono::steady_clock::now();
    Instant m_wallStart = std::chrono::time_point_cast<Millis>(std::chrono::system_clock::now());
};

/// The machine's clock, some times as fast: the quick demo.
class FastClock final : public Clock
{
public:
    explicit FastClock(double speed) : m_speed(speed) {}
    [[nodiscard]] Instant now() const override
    {
        return m_start + std::chrono::duration_cast<Millis>((m_machine.now() - m_start) * m_speed);
    }
    [[nodiscard]] double speed() const override { return m_speed; }

private:
    SystemClock m_machine;
    Instant m_start = m_machine.now();
    double m_speed;
};

/// A clock that stands until it is moved: tests and the fast demo. Thread: one.
class HandClock final : public Clock
{
public:
    explicit HandClock(Instant start = Instant{Millis{1'700'000'000'000}}) : m_now(start) {}
    [[nodiscard]] Instant now() const override { return m_now; }
    void advance(Millis by) { m_now += by; }

private:
    Instant m_now;
};

} // namespace vh
