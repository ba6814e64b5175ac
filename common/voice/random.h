#pragma once
// Numbers that look random and depend on nothing but their seed, so that the same seed gives the same voice. Thread:
// one.
// Source: SplitMix64, as in Steele, Lea and Flood, "Fast Splittable Pseudorandom Number Generators", OOPSLA 2014.
#include <cmath>
#include <cstdint>
#include <numbers>

namespace vh::voice
{

class Random
{
public:
    explicit Random(std::uint64_t seed) : m_state(seed) {}

    std::uint64_t next()
    {
        m_state += 0x9E3779B97F4A7C15U;
        std::uint64_t z = m_state;
        z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
        z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
        return z ^ (z >> 31U);
    }
    /// From 0 up to, not including, 1.
    double unit() { return static_cast<double>(next() >> 11U) * 0x1p-53; }
    /// From -1 up to, not including, 1; mean square 1/3.
    double even() { return 2 * unit() - 1; }
    /// Normal, mean 0, standard deviation 1 (Box and Muller).
    double normal()
    {
        const double radius = std::sqrt(-2 * std::log(1 - unit()));
        return radius * std::cos(2 * std::numbers::pi * unit());
    }
    /// A generator for something else, independent of how many numbers are drawn here.
    [[nodiscard]] Random branch(std::uint64_t what) const
    {
        Random mixed(m_state ^ (what * 0xD6E8FEB86659FD93U));
        return Random(mixed.next());
    }

private:
    std::uint64_t m_state;
};

} // namespace vh::voice
