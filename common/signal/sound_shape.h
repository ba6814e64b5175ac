#pragma once
// What the spectrum of a sound is like beside that of the room: how far it stands out, whether it is one narrow tone,
// how fast it changes its colour, whether it rises and falls as narrowly as a mouth's resonances make it. Each is a
// plain figure for one rule of VoiceActivity. Frames of 10 ms; the room is tracked by band (NoiseFloor). Thread: one.
#include "common/signal/noise_floor.h"
#include "common/signal/spectrum.h"

#include <array>
#include <cstdint>

namespace vh
{

class SoundShape
{
public:
    static constexpr std::size_t kBands = 16;

    struct Reading {
        double excessDb = 0;  ///< mean of what bands from 250 to 6000 Hz stand above the room, each 0..20 dB
        int bandsUp = 0;      ///< of these, how many stand 4 dB or more above it
        double toneShare = 0; ///< 0..1: the strongest narrow tone above 1.2 kHz, of all energy over the room
        double lowShare = 0;  ///< 0..1: energy over the room under 330 Hz, of that under 1350 Hz
        double changeDb = 0;  ///< how much the colour changes in 80 ms of sound, dB per band, over a third of a second
        double rippleDb = 0;  ///< how much the spectrum over the room's rises and falls within some hundred hertz
    };

    explicit SoundShape(int sampleRateHz);

    /// `voiceLike`: as known so far; holds the room's rise back. `learns`: false while a frame says nothing of the
    /// room.
    Reading push(std::span<const float> frame, bool voiceLike, bool learns);

private:
    using Bands = std::array<float, kBands>;
    static constexpr std::size_t kBack = 8;

    void measureExcess(const Bands& energy, Reading& reading) const;
    void measureTone(std::span<const float, Spectrum::kBins> power, double over, Reading& reading) const;
    void measureChange(const Bands& energy, Reading& reading);
    void learnRoom(std::span<const float, Spectrum::kBins> power);
    [[nodiscard]] double ripple() const;

    Spectrum m_spectrum;
    std::array<std::size_t, kBands + 1> m_edges{};
    std::array<NoiseFloor, kBands> m_floors;
    std::array<float, Spectrum::kBins> m_slow{}; ///< power, over about 150 ms
    std::array<float, Spectrum::kBins> m_room{}; ///< of the room, over half a second of it and more
    int m_roomFrames = 0;
    Bands m_smooth{};                     ///< band energies, over about 40 ms
    std::array<Bands, kBack> m_colours{}; ///< ring of the last 80 ms
    std::array<bool, kBack> m_sounded{};  ///< whether there was sound then
    std::size_t m_at = 0;
    double m_change = 0;
};

} // namespace vh
