#include "common/echo/delay_finder.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace vh
{

namespace
{
constexpr double kRateHz = 8000;
constexpr double kLowHz = 200;
constexpr double kHighHz = 3600;
/// Bins this far under the mean of the far end say nothing.
constexpr float kLeastShare = 1e-4F;

/// Of 2, 3 and 5 only, and not far above.
std::size_t quickSize(std::size_t atLeast)
{
    std::size_t size = 256;
    while (size < atLeast)
        size *= 2;
    return size / 4 * 3 >= atLeast ? size / 4 * 3 : size;
}
} // namespace

DelayFinder::DelayFinder(std::size_t stretch, std::size_t farthest)
    : m_stretch(stretch / 2), m_farthest(farthest / 2), m_fft(quickSize(m_stretch + m_farthest)),
      m_far(m_stretch + m_farthest), m_mic(m_far.size()), m_work(m_fft.size()), m_farBins(m_fft.bins()),
      m_micBins(m_fft.bins())
{
    assert(stretch % 2 == 0 && farthest % 2 == 0);
}

void DelayFinder::restart()
{
    m_filled = 0;
}

void DelayFinder::push(std::span<const float> far, std::span<const float> mic)
{
    assert(far.size() == mic.size() && far.size() % 2 == 0);
    for (std::size_t i = 0; i + 1 < far.size(); i += 2) {
        m_far[m_at] = far[i] + far[i + 1];
        m_mic[m_at] = mic[i] + mic[i + 1];
        m_at = m_at + 1 < m_far.size() ? m_at + 1 : 0;
    }
    m_filled = std::min(m_filled + far.size() / 2, m_far.size());
}

void DelayFinder::correlate()
{
    const auto oldest = m_far.begin() + static_cast<std::ptrdiff_t>(m_at);
    std::fill(m_work.begin(), m_work.end(), 0.0F);
    std::copy(m_far.begin(), oldest, std::copy(oldest, m_far.end(), m_work.begin()));
    m_fft.forward(m_work, m_farBins);

    std::copy(m_mic.begin(), m_mic.begin() + static_cast<std::ptrdiff_t>(m_at),
              std::copy(m_mic.begin() + static_cast<std::ptrdiff_t>(m_at), m_mic.end(), m_work.begin()));
    std::fill_n(m_work.begin(), m_farthest, 0.0F); // what was played before may be in there
    m_fft.forward(m_work, m_micBins);
}

std::optional<DelayFinder::Found> DelayFinder::find()
{
    if (m_filled < m_far.size())
        return std::nullopt;
    correlate();
    const double perBin = kRateHz / static_cast<double>(m_fft.size());
    const auto low = static_cast<std::size_t>(kLowHz / perBin);
    const auto high = static_cast<std::size_t>(kHighHz / perBin);
    const auto power = [](const Bins& bins, std::size_t k) {
        return bins.re[k] * bins.re[k] + bins.im[k] * bins.im[k];
    };
    float mean = 0;
    for (std::size_t k = low; k < high; ++k)
        mean += power(m_farBins, k) / static_cast<float>(high - low);
    if (mean <= 0)
        return std::nullopt;
    for (std::size_t k = 0; k < m_fft.bins(); ++k) {
        const float far = power(m_farBins, k);
        const float mic = power(m_micBins, k);
        const bool counts = k >= low && k < high && far > kLeastShare * mean && mic > 0;
        const float scale = counts ? 1.0F / std::sqrt(far * mic) : 0.0F;
        const float re = m_micBins.re[k] * m_farBins.re[k] + m_micBins.im[k] * m_farBins.im[k];
        const float im = m_micBins.im[k] * m_farBins.re[k] - m_micBins.re[k] * m_farBins.im[k];
        m_micBins.re[k] = scale * re;
        m_micBins.im[k] = scale * im;
    }
    m_fft.back(m_micBins, m_work);

    std::size_t peak = 0;
    double sum = 0;
    for (std::size_t lag = 0; lag < m_farthest; ++lag) {
        sum += static_cast<double>(m_work[lag]) * m_work[lag];
        if (m_work[lag] > m_work[peak])
            peak = lag;
    }
    const double top = m_work[peak];
    const double rest = std::sqrt(std::max(sum - top * top, 1e-30) / static_cast<double>(m_farthest));
    Found found{2.0 * static_cast<double>(peak), top / rest};
    if (peak > 0 && peak + 1 < m_farthest) { // a parabola through the three
        const double before = m_work[peak - 1];
        const double after = m_work[peak + 1];
        const double bend = before - 2 * top + after;
        if (bend < 0)
            found.delay += before - after == 0 ? 0 : (before - after) / bend;
    }
    return found;
}

} // namespace vh
