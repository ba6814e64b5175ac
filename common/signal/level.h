#pragma once
// Levels from squared samples. Everything is relative to digital full scale: mean square 1.0 (a full-scale square wave)
// is 0 dB, so a full-scale sine is -3.01 dB. The square may be of a weighted or an unweighted sample. Thread: one, any.
// Source: IEC 61672-1:2013, 3.7 to 3.14.
#include <cmath>
#include <cstdint>

namespace vh
{

/// What stands for "nothing at all"; no level is ever reported below it.
inline constexpr double kLowestDb = -120.0;

/// 10 lg(mean square), never below kLowestDb.
inline double dbOfMeanSquare(double meanSquare)
{
    return meanSquare > 1e-12 ? 10.0 * std::log10(meanSquare) : kLowestDb;
}

/// The reverse: the mean square of a level in dB re full scale.
inline double meanSquareOfDb(double db)
{
    return std::pow(10.0, db / 10.0);
}

/// Sets a decayed filter state to exact zero long before it becomes a denormal number, which processors handle slowly.
inline void dropDust(double& state)
{
    if (std::abs(state) < 1e-30)
        state = 0.0;
}

/// Exponential averaging of the square: Fast (125 ms) and Slow (1 s). Falls by 10 lg(e)/tau: 34.7 and 4.3 dB/s.
class TimeWeighting
{
public:
    static constexpr double kFastSeconds = 0.125;
    static constexpr double kSlowSeconds = 1.0;

    TimeWeighting(double tauSeconds, double sampleRateHz)
        : m_keep(std::exp(-1.0 / (tauSeconds * sampleRateHz))), m_take(1.0 - m_keep)
    {
    }

    void push(double square) { m_meanSquare = m_keep * m_meanSquare + m_take * square; }
    void tidy() { dropDust(m_meanSquare); }
    [[nodiscard]] double meanSquare() const { return m_meanSquare; }
    [[nodiscard]] double db() const { return dbOfMeanSquare(m_meanSquare); }

private:
    double m_keep;
    double m_take;
    double m_meanSquare = 0.0;
};

/// Leq: 10 lg of the mean square over a stretch of time. For Leq over voiced time add voiced stretches only.
class LevelAccumulator
{
public:
    /// `meanSquare` over `count` equal units (samples, or 10 ms frames: the same unit throughout).
    void add(double meanSquare, std::int64_t count = 1)
    {
        m_sum += meanSquare * static_cast<double>(count);
        m_count += count;
    }
    void restart() { *this = {}; }
    [[nodiscard]] std::int64_t count() const { return m_count; }
    /// kLowestDb while nothing was added.
    [[nodiscard]] double leqDb() const
    {
        return m_count > 0 ? dbOfMeanSquare(m_sum / static_cast<double>(m_count)) : kLowestDb;
    }
    /// Sound exposure level: Leq + 10 lg(T / 1 s), for units of which there are `perSecond`. kLowestDb when empty.
    [[nodiscard]] double exposureDb(double perSecond) const { return dbOfMeanSquare(m_sum / perSecond); }

private:
    double m_sum = 0.0;
    std::int64_t m_count = 0;
};

} // namespace vh
