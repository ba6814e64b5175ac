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
constexpr float kTakeRoom = 0.02F;    // half a second
constexpr double kRoomItselfDb = 1.5; // less stands over the room: it is the room
constexpr int kRoomItselfBands = 3;
// The spectrum seen through a window as wide as a narrow resonance, and through one wider than any: what differs is
// ripple. Found on the proving ground, no published source.
constexpr double kNarrowHz = 95; // either way
constexpr double kWideHz = 560;
constexpr double kRippleFromHz = 400;
constexpr double kRippleToHz = 3500;
constexpr float kEmpty = 1e-14F; // -140 dB: the converter's own noise in one bin
constexpr float kDust = 1e-18F;  // keeps sums of silence clear of denormal numbers, which processors handle slowly
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
    const auto peak = static_cast<std::size_t>(
        std::max_element(power.begin() + static_cast<std::ptrdiff_t>(from), power.end() - 3) - power.begin());
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

void SoundShape::learnRoom(std::span<const float, Spectrum::kBins> power)
{
    m_roomFrames = std::min(m_roomFrames + 1, 1000);
    const float take = std::max(1.0F / static_cast<float>(m_roomFrames), kTakeRoom);
    for (std::size_t k = 0; k < power.size(); ++k)
        m_room[k] += take * (power[k] + kDust - m_room[k]);
}

double SoundShape::ripple() const
{
    std::array<float, Spectrum::kBins + 1> sums{}; // of what each bin stands over the room, dB
    for (std::size_t k = 0; k < m_slow.size(); ++k) {
        const float over = 10 * std::log10((m_slow[k] + kEmpty) / (m_room[k] + kEmpty));
        sums[k + 1] = sums[k] + std::max(0.0F, over);
    }
    const auto mean = [&sums](std::size_t at, std::size_t beside) {
        const std::size_t from = at > beside ? at - beside : 0;
        const std::size_t to = std::min(at + beside + 1, sums.size() - 1);
        return (sums[to] - sums[from]) / static_cast<float>(to - from);
    };
    const std::size_t narrow = m_spectrum.binOf(kNarrowHz);
    const std::size_t wide = m_spectrum.binOf(kWideHz);
    const std::size_t first = m_spectrum.binOf(kRippleFromHz);
    const std::size_t end = m_spectrum.binOf(kRippleToHz);
    float squares = 0;
    for (std::size_t k = first; k < end; ++k) {
        const float bend = mean(k, narrow) - mean(k, wide);
        squares += bend * bend;
    }
    return std::sqrt(squares / static_cast<float>(end - first));
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
    for (std::size_t k = 0; k < power.size(); ++k)
        m_slow[k] += kTakeSlow * (power[k] + kDust - m_slow[k]);
    if (learns && !voiceLike && reading.excessDb < kRoomItselfDb && reading.bandsUp < kRoomItselfBands)
        learnRoom(power);
    reading.rippleDb = ripple();
    return reading;
}

} // namespace vh
