#pragma once
// Numbers that look random and depend on nothing but what they are asked with, so that every run of the same seed is
// the same. Pure; any thread.
// Source: SplitMix64, as in Steele, Lea and Flood, "Fast Splittable Pseudorandom Number Generators", OOPSLA 2014.
#include <cstdint>
#include <initializer_list>

namespace vh::chorus
{

/// SplitMix64: moves `state` on and gives the next number.
constexpr std::uint64_t nextNumber(std::uint64_t& state)
{
    state += 0x9E3779B97F4A7C15U;
    std::uint64_t z = state;
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
    return z ^ (z >> 31U);
}

/// One number for these numbers, in this order.
constexpr std::uint64_t mixed(std::initializer_list<std::uint64_t> numbers)
{
    std::uint64_t state = 0;
    for (const std::uint64_t number : numbers) {
        state ^= number;
        state = nextNumber(state);
    }
    return state;
}

/// From 0 up to, not including, 1.
constexpr double unit(std::initializer_list<std::uint64_t> numbers)
{
    return static_cast<double>(mixed(numbers) >> 11U) * 0x1p-53;
}

} // namespace vh::chorus
