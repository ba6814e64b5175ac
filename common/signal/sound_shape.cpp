#include "common/signal/sound_shape.h"

#include "common/signal/level.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace vh
{

namespace
{
// About as wide as critical bands (Zwicker 1961), from memory; none narrower than five bins.
constexpr std::array<double, SoundShape::kBands + 1> kEdgesHz{100,  250,  400,  550,  700,  900,  1100, 1350, 1650,
                                                              2000, 2400, 2900, 3500, 4200, 5000, 6000, 7200};
constexpr std::size_t kFirstCounted = 1; // 250 Hz: below lies rumble
constexpr std::size_t kEndCounted = 15;  // 6000 Hz
constexpr double kUpDb = 4;
constexpr double kMostDb = 20;
constexpr double kLowestBand = 1e-11; // -110 dB: the converter's own noise in one band
constexpr float kTakeSlow = 0.065F;   // of each frame: 150 ms
constexpr float kTakeSmooth = 0.22F;  // 40 ms
constexpr double kTakeChange = 0.03;  // a third of a second
constexpr double kForgetChange = 0.01;
constexpr int kSoundBands = 4;
constexpr double kBesideHz = 350;
constexpr float kDust = 1e-18F; // keeps sums of silence clear of denormal numbers, which processors handle slowly
} // namespace

SoundShape::SoundShape(int sampleRateHz) : m_spectrum(sampleRateHz)
{
    for (std::size_t i = 0; i <= kBands; ++i)
        m_edges[i] = m_spectrum.binOf(kEdgesHz[i]);
}

void SoundShape::measureExcess(const Bands& energy, Reading& reading) const
{
    double sum = 0;
    double low = 0;
    double under1350 = 1e-15;
    for (std::size_t b = 0; b < kBands; ++b) {
        const double room = std::max(m_floors[b].meanSquare(), kLowestBand);
        const double over = std::max(0.0, energy[b] - 2 * room); // 3 dB: what the room itself reaches now and then
        if (b <= 1)
            low += b == 0 ? over : 0.5 * over;
        if (b <= 6)
            under1350 += over;
        if (b < kFirstCounted || b >= kEndCounted)
            continue;
        const double db = std::clamp(10 * std::log10((energy[b] + kLowestBand) / room), 0.0, kMostDb);
        sum += db;
        reading.bandsUp += db >= kUpDb ? 1 : 0;
    }
    reading.excessDb = sum / (kEndCounted - kFirstCounted);
    reading.lowShare = low / under1350;
}

void SoundShape::measureTone(std::span<const float, Spectrum::kBins> power, double over, Reading& reading) const
{
    const std::size_t from = m_spectrum.binOf(1200);
    const auto peak = static_cast<std::size_t>(std::max_element(power.begin() + static_cast<std::ptrdiff_t>(from),
                                                                power.end() - 3) - power.begin());
    double tone = 0;
    for (std::size_t k = peak - 2; k <= peak + 2; ++k)
        tone += power[k];
    reading.toneShare = over > 0 ? std::min(1.0, tone / over) : 0;
}

void SoundShape::measureChange(const Bands& energy, Reading& reading)
{
    Bands colour;
    float mean = 0;
    for (std::size_t b = 0; b < kBands; ++b) {
        m_smooth[b] += kTakeSmooth * (energy[b] + kDust - m_smooth[b]);
        const double room = std::max(m_floors[b].meanSquare(), kLowestBand);
        colour[b] = static_cast<float>(10 * std::log10(std::max<double>(m_smooth[b], room)));
        mean += colour[b] / kBands;
    }
    Bands& before = m_colours[m_at];
    double change = 0;
    for (std::size_t b = 0; b < kBands; ++b) {
        colour[b] -= mean;
        change += std::abs(colour[b] - before[b]) / kBands;
    }
    before = colour;
    const bool sounds = reading.bandsUp >= kSoundBands;
    if (sounds && m_sounded[m_at]) // from silence to sound every colour changes
        m_change += kTakeChange * (change - m_change);
    else
        m_change *= 1 - kForgetChange;
    m_sounded[m_at] = sounds;
    m_at = (m_at + 1) % kBack;
    reading.changeDb = m_change;
}

void SoundShape::measureResonance(std::span<const float, Spectrum::kBins> power, Reading& reading)
{
    for (std::size_t k = 0; k < power.size(); ++k)
        m_slow[k] += kTakeSlow * (power[k] + kDust - m_slow[k]);
    const auto around = [this](std::size_t k) {
        return m_slow[k - 2] + m_slow[k - 1] + m_slow[k] + m_slow[k + 1] + m_slow[k + 2] + 1e-13F;
    };
    const std::size_t beside = m_spectrum.binOf(kBesideHz);
    double best = 0;
    double second = 0;
    std::size_t bestAt = 0;
    for (std::size_t k = beside + 3; k < m_spectrum.binOf(4200); ++k) {
        const float here = around(k);
        const float least = here / std::max(around(k - beside), around(k + beside));
        if (least > best) {
            if (k > bestAt + beside)
                second = best;
            best = least;
            bestAt = k;
        } else if (k > bestAt + beside) {
            second = std::max<double>(second, least);
        }
    }
    reading.resonanceDb = second > 0 ? 10 * std::log10(second) : -20;
}

SoundShape::Reading SoundShape::push(std::span<const float> frame, bool voiceLike, bool learns)
{
    const auto power = m_spectrum.push(frame);
    Bands energy{};
    double over = 0;
    double all = 0;
    for (std::size_t b = 0; b < kBands; ++b) {
        for (std::size_t k = m_edges[b]; k < m_edges[b + 1]; ++k)
            energy[b] += power[k];
        if (learns)
            m_floors[b].push(energy[b], voiceLike);
        over += std::max(0.0, energy[b] - m_floors[b].meanSquare());
        all += energy[b];
    }
    Reading reading;
    measureExcess(energy, reading);
    measureTone(power, std::max(over, 0.1 * all), reading);
    measureChange(energy, reading);
    measureResonance(power, reading);
    return reading;
}

} // namespace vh
