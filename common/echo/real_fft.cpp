#include "common/echo/real_fft.h"

#include <cassert>
#include <kissfft/kiss_fftr.h>
#include <new>

namespace vh
{

void RealFft::Closer::operator()(kiss_fftr_state* state) const
{
    kiss_fftr_free(state);
}

RealFft::RealFft(std::size_t size)
    : m_size(size), m_forward(kiss_fftr_alloc(static_cast<int>(size), 0, nullptr, nullptr)),
      m_back(kiss_fftr_alloc(static_cast<int>(size), 1, nullptr, nullptr)), m_work(size / 2 + 1)
{
    static_assert(sizeof(Complex) == sizeof(kiss_fft_cpx));
    if (!m_forward || !m_back)
        throw std::bad_alloc();
}

void RealFft::forward(std::span<const float> samples, Bins& bins)
{
    assert(samples.size() == m_size && bins.re.size() == m_work.size());
    kiss_fftr(m_forward.get(), samples.data(), reinterpret_cast<kiss_fft_cpx*>(m_work.data()));
    for (std::size_t k = 0; k < m_work.size(); ++k) {
        bins.re[k] = m_work[k].re;
        bins.im[k] = m_work[k].im;
    }
}

void RealFft::back(const Bins& bins, std::span<float> samples)
{
    assert(samples.size() == m_size && bins.re.size() == m_work.size());
    const float scale = 1.0F / static_cast<float>(m_size);
    for (std::size_t k = 0; k < m_work.size(); ++k)
        m_work[k] = {bins.re[k] * scale, bins.im[k] * scale};
    kiss_fftri(m_back.get(), reinterpret_cast<const kiss_fft_cpx*>(m_work.data()), samples.data());
}

} // namespace vh
