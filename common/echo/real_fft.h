#pragma once
// The Fourier transform of real samples (common/signal/fourier.h), there and back in one, with real and imaginary parts
// apart, which is how the loops here run fastest: `size` samples to size / 2 + 1 bins. Forward is unscaled; back()
// divides by the size. Allocates when built only. Thread: one.
#include "common/signal/fourier.h"

#include <vector>

namespace vh
{

/// One spectrum.
struct Bins {
    explicit Bins(std::size_t count = 0) : re(count), im(count) {}
    std::vector<float> re;
    std::vector<float> im;
};

class RealFft
{
public:
    /// An even size of small factors (2, 3, 5).
    explicit RealFft(std::size_t size);

    void forward(std::span<const float> samples, Bins& bins);
    void back(const Bins& bins, std::span<float> samples);
    [[nodiscard]] std::size_t size() const { return m_size; }
    [[nodiscard]] std::size_t bins() const { return m_size / 2 + 1; }

private:
    std::size_t m_size;
    Fourier m_forward;
    Fourier m_back;
    std::vector<std::complex<float>> m_work;
};

} // namespace vh
