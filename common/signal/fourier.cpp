#include "common/signal/fourier.h"

#include <kiss_fftr.h>

#include <cassert>
#include <new>

namespace vh
{

// The library's complex numbers are two floats, real part first, and so are those of C++ (array-oriented access,
// [complex.numbers.general]).
static_assert(sizeof(kiss_fft_cpx) == sizeof(std::complex<float>));

void Fourier::Free::operator()(kiss_fftr_state* state) const
{
    kiss_fftr_free(state);
}

Fourier::Fourier(std::size_t size, Way way)
    : m_size(size), m_way(way),
      m_state(kiss_fftr_alloc(static_cast<int>(size), way == Way::back ? 1 : 0, nullptr, nullptr))
{
    assert(size % 2 == 0);
    if (!m_state)
        throw std::bad_alloc();
}

void Fourier::forward(std::span<const float> samples, std::span<std::complex<float>> bins)
{
    assert(m_way == Way::forward && samples.size() == m_size && bins.size() == m_size / 2 + 1);
    kiss_fftr(m_state.get(), samples.data(), reinterpret_cast<kiss_fft_cpx*>(bins.data()));
}

void Fourier::back(std::span<const std::complex<float>> bins, std::span<float> samples)
{
    assert(m_way == Way::back && samples.size() == m_size && bins.size() == m_size / 2 + 1);
    kiss_fftri(m_state.get(), reinterpret_cast<const kiss_fft_cpx*>(bins.data()), samples.data());
}

} // namespace vh
