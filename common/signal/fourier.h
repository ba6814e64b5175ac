#pragma once
// The discrete Fourier transform of real sound, forward and back, by Debian's libkissfft (single precision). Sizes are
// even and have no prime factor over 5 (others make the library allocate in every transform). Unscaled: there and back
// multiplies by the size. Allocates when built only. Thread: one at a time; it works in a buffer of its own. Failure:
// std::bad_alloc.
#include <complex>
#include <cstddef>
#include <memory>
#include <span>

struct kiss_fftr_state;

namespace vh
{

class Fourier
{
public:
    enum class Way { forward, back };

    Fourier(std::size_t size, Way way);

    /// Only of one built forward: `size` samples to size / 2 + 1 bins, from 0 to half the sample rate.
    void forward(std::span<const float> samples, std::span<std::complex<float>> bins);
    /// Only of one built to go back.
    void back(std::span<const std::complex<float>> bins, std::span<float> samples);

private:
    struct Free {
        void operator()(kiss_fftr_state* state) const;
    };
    std::size_t m_size;
    Way m_way;
    std::unique_ptr<kiss_fftr_state, Free> m_state;
};

} // namespace vh
