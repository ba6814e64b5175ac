#include "common/echo/real_fft.h"

#include <cassert>

namespace vh
{

RealFft::RealFft(std::size_t size)
    : m_size(size), m_forward(size, Fourier::Way::forward), m_back(size, Fourier::Way::back), m_work(size / 2 + 1)
{
}

void RealFft::forward(std::span<const float> samples, Bins& bins)
{
    assert(bins.re.size() == m_work.size());
    m_forward.forward(samples, m_work);
    for (std::size_t k = 0; k < m_work.size(); ++k) {
        bins.re[k] = m_work[k].real();
        bins.im[k] = m_work[k].imag();
    }
}

void RealFft::back(const Bins& bins, std::span<float> samples)
{
    assert(bins.re.size() == m_work.size());
    const float scale = 1.0F / static_cast<float>(m_size);
    for (std::size_t k = 0; k < m_work.size(); ++k)
        m_work[k] = {bins.re[k] * scale, bins.im[k] * scale};
    m_back.back(m_work, samples);
}

} // namespace vh
