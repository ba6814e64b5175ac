#pragma once
// The fast Fourier transform and convolution by it, for rooms. Pure; any thread.
// Source: Cooley and Tukey 1965, Math Comput 19:297 (radix 2, in place).
#include <complex>
#include <span>
#include <vector>

namespace vh::voice
{

using Complex = std::complex<float>;

/// In place; the size is a power of two. Unscaled: forward and back multiply by the size.
void fft(std::span<Complex> values);
void inverseFft(std::span<Complex> values);

[[nodiscard]] std::size_t powerOfTwoFrom(std::size_t atLeast);

} // namespace vh::voice
