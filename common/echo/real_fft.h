#pragma once
// The Fourier transform of real samples, by kissfft: `size` samples to size / 2 + 1 bins, real and imaginary parts
// apart, which is how the loops here run fastest. Forward is unscaled; back() divides by the size. Allocates when built
// only. Thread: one.
#include <memory>
#include <span>
#include <vector>

struct kiss_fftr_state;

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
    struct Closer {
        void operator()(kiss_fftr_state* state) const;
    };
    struct Complex {
        float re, im;
    };
    std::size_t m_size;
    std::unique_ptr<kiss_fftr_state, Closer> m_forward;
    std::unique_ptr<kiss_fftr_state, Closer> m_back;
    std::vector<Complex> m_work;
};

} // namespace vh
