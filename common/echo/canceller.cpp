#include "common/echo/canceller.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace vh
{

namespace
{
/// What a leak is expected to be before anything is known: 17 dB under the far end, dying away by 60 dB in half a
/// second. Trial; it only sets how fast the first words are learnt.
constexpr float kFirstDoubt = 0.02F;
const float kDoubtFalls = std::pow(10.0F, -0.12F); // a partition of 10 ms
/// How fast rooms change: share of a weight's power that is doubted again each block.
constexpr float kChange = 3e-4F;
constexpr float kTakeOther = 0.3F;
constexpr float kLeastOther = 1e-9F;
} // namespace

Canceller::Canceller()
    : m_fft(2 * kBlock), m_bins(kBins), m_far(kPartitions + 1), m_farPower(kPartitions + 1), m_weights(kPartitions),
      m_doubt(kPartitions)
{
    restart();
}

void Canceller::restart()
{
    std::fill(m_weights.begin(), m_weights.end(), Spectrum{});
    doubt();
}

void Canceller::doubt()
{
    float first = kFirstDoubt;
    for (Row& row : m_doubt) {
        for (float& value : row)
            value = std::max(value, first);
        first *= kDoubtFalls;
    }
    m_fresh = true;
}

std::size_t Canceller::slot(std::size_t blocksAgo) const
{
    return (m_newest + m_far.size() - blocksAgo) % m_far.size();
}

void Canceller::predict(std::span<const float> far, std::span<float> echo)
{
    assert(far.size() == kBlock && echo.size() == kBlock);
    std::copy(m_last.begin(), m_last.end(), m_time.begin());
    std::copy(far.begin(), far.end(), m_time.begin() + kBlock);
    std::copy(far.begin(), far.end(), m_last.begin());
    m_fft.forward(m_time, m_bins);
    m_newest = (m_newest + 1) % m_far.size();
    Spectrum& newest = m_far[m_newest];
    Row& power = m_farPower[m_newest];
    for (std::size_t k = 0; k < kBins; ++k) {
        newest.re[k] = m_bins.re[k];
        newest.im[k] = m_bins.im[k];
        power[k] = m_bins.re[k] * m_bins.re[k] + m_bins.im[k] * m_bins.im[k];
    }
    Row re{};
    Row im{};
    for (std::size_t p = 0; p < kPartitions; ++p) {
        const Spectrum& x = m_far[slot(p)];
        const Spectrum& w = m_weights[p];
        for (std::size_t k = 0; k < kBins; ++k) {
            re[k] += w.re[k] * x.re[k] - w.im[k] * x.im[k];
            im[k] += w.re[k] * x.im[k] + w.im[k] * x.re[k];
        }
    }
    std::copy(re.begin(), re.end(), m_bins.re.begin());
    std::copy(im.begin(), im.end(), m_bins.im.begin());
    m_fft.back(m_bins, m_time);
    std::copy(m_time.begin() + kBlock, m_time.end(), echo.begin());
}

void Canceller::learn(std::span<const float> error)
{
    assert(error.size() == kBlock);
    std::fill_n(m_time.begin(), kBlock, 0.0F);
    std::copy(error.begin(), error.end(), m_time.begin() + kBlock);
    m_fft.forward(m_time, m_bins);
    Row all{};
    for (std::size_t p = 0; p < kPartitions; ++p) {
        const Row& power = m_farPower[slot(p + 1)];
        for (std::size_t k = 0; k < kBins; ++k)
            all[k] += m_doubt[p][k] * power[k];
    }
    for (std::size_t k = 0; k < kBins; ++k) {
        const float now = m_bins.re[k] * m_bins.re[k] + m_bins.im[k] * m_bins.im[k];
        m_other[k] = m_fresh ? now : m_other[k] + kTakeOther * (now - m_other[k]);
        all[k] = 1.0F / (all[k] + 2 * m_other[k] + kLeastOther); // half of each block is zeros: hence the 2
    }
    m_fresh = false;
    for (std::size_t p = 0; p < kPartitions; ++p) {
        const Spectrum& x = m_far[slot(p + 1)];
        const Row& power = m_farPower[slot(p + 1)];
        Spectrum& w = m_weights[p];
        Row& doubt = m_doubt[p];
        for (std::size_t k = 0; k < kBins; ++k) {
            const float gain = doubt[k] * all[k];
            w.re[k] += gain * (x.re[k] * m_bins.re[k] + x.im[k] * m_bins.im[k]);
            w.im[k] += gain * (x.re[k] * m_bins.im[k] - x.im[k] * m_bins.re[k]);
            doubt[k] = (1 - kChange) * doubt[k] * (1 - 0.5F * gain * power[k]) +
                       kChange * (w.re[k] * w.re[k] + w.im[k] * w.im[k]);
        }
    }
    for (int i = 0; i < 2; ++i) {
        constrain(m_turn);
        m_turn = (m_turn + 1) % kPartitions;
    }
}

/// The response of a partition is kBlock long; what a circular convolution put behind it goes.
void Canceller::constrain(std::size_t partition)
{
    Spectrum& w = m_weights[partition];
    std::copy(w.re.begin(), w.re.end(), m_bins.re.begin());
    std::copy(w.im.begin(), w.im.end(), m_bins.im.begin());
    m_fft.back(m_bins, m_time);
    std::fill_n(m_time.begin() + kBlock, kBlock, 0.0F);
    m_fft.forward(m_time, m_bins);
    std::copy(m_bins.re.begin(), m_bins.re.end(), w.re.begin());
    std::copy(m_bins.im.begin(), m_bins.im.end(), w.im.begin());
}

} // namespace vh
