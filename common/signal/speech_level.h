#pragma once
// Active speech level of ITU-T P.56 (12/2011) method B: the level of speech while it is spoken, pauses shorter than 0.2
// s counted in. Streaming, in the histogram form: 15 thresholds, nothing kept per sample. Levels in dB re full scale
// (mean square 1.0 = 0 dB, "dBov"). Unweighted samples. Begin each utterance with restart(). Thread: one.
// The hangover is rounded to the nearest sample, as the reference code of ITU-T G.191 (sv56) does.
#include <array>
#include <cmath>
#include <cstdint>
#include <optional>
#include <span>

namespace vh
{

class SpeechLevel
{
public:
    struct Reading {
        double activeDb = 0;   ///< the active speech level
        double longTermDb = 0; ///< over all samples, pauses included
        double activity = 0;   ///< share of active time, 0..1
    };

    explicit SpeechLevel(int sampleRateHz);

    void push(std::span<const float> samples);
    void restart();
    /// Since restart(). Nothing for silence, for sound below the lowest threshold (about -75 dB), and for sound so
    /// spiky that no threshold lies 15.9 dB below its active level.
    [[nodiscard]] std::optional<Reading> reading() const;

private:
    static constexpr int kThresholds = 15; ///< 2^-15 ... 2^-1 of full scale

    /// Activity against one threshold; what has ended is in `active`, what is going on is worked out when asked for.
    struct Counter {
        std::int64_t active = 0;
        std::int64_t above = 0;  ///< the sample at which the envelope last reached the threshold
        std::int64_t below = -1; ///< the sample at which it last fell under it; -1: not since the start
    };
    void envelopeMoved(double envelope);
    [[nodiscard]] std::int64_t activeSamples(int threshold) const;

    double m_keep;
    std::int64_t m_hangover;

    double m_first = 0;   ///< p of the Recommendation
    double m_second = 0;  ///< q: the envelope
    double m_squares = 0; ///< sum
    std::int64_t m_count = 0;
    int m_reached = 0;        ///< thresholds [0, m_reached) are at or under the envelope
    double m_risesAt = 0;     ///< the next threshold up
    double m_fallsUnder = -1; ///< the highest threshold reached
    std::array<Counter, kThresholds> m_counters{};
};

} // namespace vh
