#include "common/voice/fft.h"

#include <algorithm>
#include <bit>
#include <cassert>
#include <cmath>
#include <numbers>
#include <utility>

namespace vh::voice
{

namespace
{

void reorder(std::span<Complex> values)
{
    for (std::size_t i = 1, j = 0; i < values.size(); ++i) {
        std::size_t bit = values.size() >> 1U;
        for (; (j & bit) != 0; bit >>= 1U)
            j ^= bit;
        j ^= bit;
        if (i < j)
            std::swap(values[i], values[j]);
    }
}

std::vector<Complex> rootsOf(std::size_t size, double sign)
{
    std::vector<Complex> roots(size / 2);
    for (std::size_t i = 0; i < roots.size(); ++i) {
        const double angle = sign * 2 * std::numbers::pi * static_cast<double>(i) / static_cast<double>(size);
        roots[i] = {static_cast<float>(std::cos(angle)), static_cast<float>(std::sin(angle))};
    }
    return roots;
}

void transform(std::span<Complex> values, double sign)
{
    assert(std::has_single_bit(values.size()));
    reorder(values);
    std::vector<Complex> roots;
    for (std::size_t length = 2; length <= values.size(); length *= 2) {
        roots = rootsOf(length, sign);
        const std::size_t half = length / 2;
        for (std::size_t from = 0; from < values.size(); from += length) {
            Complex* low = values.data() + from;
            Complex* high = low + half;
            for (std::size_t i = 0; i < half; ++i) {
                // Written out: std::complex's product looks for infinities.
                const Complex turned{high[i].real() * roots[i].real() - high[i].imag() * roots[i].imag(),
                                     high[i].real() * roots[i].imag() + high[i].imag() * roots[i].real()};
                high[i] = low[i] - turned;
                low[i] += turned;
            }
        }
    }
}

} // namespace

void fft(std::span<Complex> values)
{
    transform(values, -1);
}

void inverseFft(std::span<Complex> values)
{
    transform(values, 1);
}

std::size_t powerOfTwoFrom(std::size_t atLeast)
{
    return std::bit_ceil(std::max<std::size_t>(atLeast, 2));
}

} // namespace vh::voice
