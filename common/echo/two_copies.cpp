#include "common/echo/two_copies.h"

#include <kissfft/kiss_fftr.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <numbers>
#include <optional>
#include <vector>

namespace vh
{

namespace
{

constexpr int kRateHz = 8'000;
constexpr int kPerMs = kRateHz / 1000;
constexpr std::size_t kDown = 6;         // from 48 kHz
constexpr std::size_t kStretch = 32'768; // 4.1 s
constexpr std::size_t kFft = 2 * kStretch;
constexpr std::size_t kBins = kFft / 2 + 1;
constexpr std::size_t kLowBin = 200 * kFft / kRateHz; // where loudspeakers and codecs carry speech
constexpr std::size_t kHighBin = 3'400 * kFft / kRateHz;
constexpr int kLags = TwoCopies::kLatestMs - TwoCopies::kEarliestMs; // in ms

// Own choices, tried on the cases of the tests. Unrelated sound gives peaks under 0.05 (random phases in 13,000
// independent bins: sigma 0.009, the greatest of 24,000).
constexpr float kPeak = 0.08F;
constexpr float kOfTheFirst = 0.1F;
constexpr float kSelfLikeness = 0.4F;
// A stretch counts where a quarter of it is louder than this (mean square re full scale, -55 dB): the far end speaks.
constexpr float kSpeaks = 3e-6F;
constexpr std::size_t kBlock = 160; // 20 ms

/// From 48 kHz to 8 kHz by a windowed sinc (Hann, 73 taps, -6 dB at 3.6 kHz); aliases stay over the band looked at.
class Down
{
public:
    Down()
    {
        double sum = 0;
        for (std::size_t i = 0; i < kTaps; ++i) {
            const double x = static_cast<double>(i) - (kTaps - 1) / 2.0;
            const double cut = 2 * 3'600.0 / 48'000;
            const double sinc = x == 0 ? cut : std::sin(std::numbers::pi * cut * x) / (std::numbers::pi * x);
            const double turn = 2 * std::numbers::pi * static_cast<double>(i + 1) / (kTaps + 1);
            m_taps[i] = static_cast<float>(sinc * (0.5 - 0.5 * std::cos(turn)));
            sum += static_cast<double>(m_taps[i]);
        }
        for (float& tap : m_taps)
            tap /= static_cast<float>(sum);
    }
    void restart()
    {
        m_past.fill(0);
        m_at = 0;
        m_phase = 0;
    }
    std::optional<float> push(float sample)
    {
        m_past[m_at] = m_past[m_at + kTaps] = std::isfinite(sample) ? sample : 0.0F;
        m_at = (m_at + 1) % kTaps;
        if (++m_phase < kDown)
            return std::nullopt;
        m_phase = 0;
        float sum = 0;
        for (std::size_t i = 0; i < kTaps; ++i)
            sum += m_taps[i] * m_past[m_at + i];
        return sum;
    }

private:
    static constexpr std::size_t kTaps = 73;
    std::array<float, kTaps> m_taps{};
    std::array<float, 2 * kTaps> m_past{}; ///< twice, so that the newest kTaps always lie in a row
    std::size_t m_at = 0;
    std::size_t m_phase = 0;
};

struct PlanFree {
    void operator()(kiss_fftr_state* plan) const { kiss_fftr_free(plan); }
};
using Plan = std::unique_ptr<kiss_fftr_state, PlanFree>;

bool speaks(std::span<const float> far)
{
    std::size_t loud = 0;
    for (std::size_t at = 0; at + kBlock <= far.size(); at += kBlock) {
        float sum = 0;
        for (const float sample : far.subspan(at, kBlock))
            sum += sample * sample;
        loud += sum > kSpeaks * kBlock ? 1 : 0;
    }
    return loud * kBlock * 4 >= far.size();
}

} // namespace

/// The stretch being filled, and the room for its transforms.
class TwoCopies::Work
{
public:
    struct Seen {
        std::optional<int> firstMs;
        std::optional<int> secondMs;
    };

    void restart()
    {
        m_downFar.restart();
        m_downHeard.restart();
        m_filled = 0;
    }
    /// True when a stretch is full.
    bool push(float farEnd, float heard)
    {
        const auto far = m_downFar.push(farEnd);
        const auto other = m_downHeard.push(heard);
        if (!far)
            return false;
        m_far[m_filled] = *far;
        m_heard[m_filled] = *other;
        return ++m_filled == kStretch;
    }
    /// Nothing where the far end did not speak enough. Begins the next stretch.
    std::optional<Seen> judge()
    {
        m_filled = 0;
        if (!speaks(std::span(m_far).first(kStretch)))
            return std::nullopt;
        kiss_fftr(m_forward.get(), m_far.data(), m_farBins.data());
        kiss_fftr(m_forward.get(), m_heard.data(), m_heardBins.data());
        correlate();
        Seen seen;
        seen.firstMs = strongest(std::nullopt);
        if (seen.firstMs)
            seen.secondMs = strongest(*seen.firstMs);
        if (seen.secondMs && likeItself(std::abs(*seen.secondMs - *seen.firstMs)))
            seen.secondMs.reset();
        return seen;
    }

private:
    /// Into m_peaks: per ms of delay, the greatest likeness, 0 to 1.
    void correlate()
    {
        m_product.assign(kBins, {0, 0});
        for (std::size_t bin = kLowBin; bin < kHighBin; ++bin) {
            const auto [fr, fi] = m_farBins[bin];
            const auto [hr, hi] = m_heardBins[bin];
            const float re = hr * fr + hi * fi;
            const float im = hi * fr - hr * fi;
            const float size = std::sqrt(re * re + im * im);
            if (size > 1e-20F)
                m_product[bin] = {re / size, im / size};
        }
        kiss_fftri(m_back.get(), m_product.data(), m_lags.data());
        constexpr float whole = 2 * static_cast<float>(kHighBin - kLowBin); // what equal phases everywhere would give
        for (int ms = 0; ms < kLags; ++ms) {
            float most = 0;
            for (int i = 0; i < kPerMs; ++i) {
                const int lag = (kEarliestMs + ms) * kPerMs + i;
                most = std::max(most, std::abs(m_lags[static_cast<std::size_t>(lag + static_cast<int>(kFft)) % kFft]));
            }
            m_peaks[static_cast<std::size_t>(ms)] = most / whole;
        }
    }

    [[nodiscard]] std::optional<int> strongest(std::optional<int> apartFrom) const
    {
        int best = 0;
        float most = 0;
        for (int ms = kEarliestMs; ms < kLatestMs; ++ms) {
            const float peak = m_peaks[static_cast<std::size_t>(ms - kEarliestMs)];
            if (peak > most && !(apartFrom && std::abs(ms - *apartFrom) < kApartMs)) {
                most = peak;
                best = ms;
            }
        }
        const float first = apartFrom ? m_peaks[static_cast<std::size_t>(*apartFrom - kEarliestMs)] : 0.0F;
        return most > std::max(kPeak, kOfTheFirst * first) ? std::optional(best) : std::nullopt;
    }

    /// The far end alone, against itself so much later: a held vowel is like itself at any multiple of its period.
    bool likeItself(int apartMs)
    {
        m_product.assign(kBins, {0, 0});
        for (std::size_t bin = kLowBin; bin < kHighBin; ++bin) {
            const auto [re, im] = m_farBins[bin];
            m_product[bin] = {re * re + im * im, 0};
        }
        kiss_fftri(m_back.get(), m_product.data(), m_lags.data());
        float most = 0;
        for (int lag = (apartMs - 2) * kPerMs; lag <= (apartMs + 2) * kPerMs; ++lag)
            most = std::max(most, std::abs(m_lags[static_cast<std::size_t>(lag)]));
        return most > kSelfLikeness * m_lags[0];
    }

    Down m_downFar;
    Down m_downHeard;
    std::size_t m_filled = 0;
    // The second half stays zero: delays are not to wrap around.
    std::vector<float> m_far = std::vector<float>(kFft);
    std::vector<float> m_heard = std::vector<float>(kFft);
    Plan m_forward{kiss_fftr_alloc(static_cast<int>(kFft), 0, nullptr, nullptr)};
    Plan m_back{kiss_fftr_alloc(static_cast<int>(kFft), 1, nullptr, nullptr)};
    std::vector<kiss_fft_cpx> m_farBins = std::vector<kiss_fft_cpx>(kBins);
    std::vector<kiss_fft_cpx> m_heardBins = std::vector<kiss_fft_cpx>(kBins);
    std::vector<kiss_fft_cpx> m_product = std::vector<kiss_fft_cpx>(kBins);
    std::vector<float> m_lags = std::vector<float>(kFft);
    std::vector<float> m_peaks = std::vector<float>(static_cast<std::size_t>(kLags));
};

TwoCopies::TwoCopies() : m_work(std::make_unique<Work>()) {}
TwoCopies::~TwoCopies() = default;

void TwoCopies::restart() noexcept
{
    m_work->restart();
    m_found = {};
    m_seenInARow = 0;
}

void TwoCopies::push(std::span<const float> farEnd, std::span<const float> heard) noexcept
{
    for (std::size_t i = 0; i < std::min(farEnd.size(), heard.size()); ++i) {
        if (!m_work->push(farEnd[i], heard[i]))
            continue;
        const auto seen = m_work->judge();
        if (!seen)
            continue;
        ++m_found.judged;
        const bool samePlace = m_seenInARow > 0 && seen->secondMs && std::abs(*seen->secondMs - m_lastSecondMs) <= 2;
        m_seenInARow = !seen->secondMs ? 0 : samePlace ? m_seenInARow + 1 : 1;
        m_lastSecondMs = seen->secondMs.value_or(0);
        if (m_found.judged < kStretches)
            continue;
        m_found.copies = !seen->firstMs ? 0 : m_seenInARow >= kStretches ? 2 : 1;
        m_found.firstMs = seen->firstMs.value_or(0);
        m_found.secondMs = m_found.copies == 2 ? m_lastSecondMs : 0;
    }
}

} // namespace vh
