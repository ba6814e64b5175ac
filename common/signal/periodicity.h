#pragma once
// How periodic the last 40 ms are, as a voice is: the greatest normalised cross-correlation of the signal with itself
// one period earlier, periods 2 to 16.5 ms (60 to 500 Hz). Works on a copy thinned to about 4 kHz and cut to 80-1100
// Hz, where the low harmonics of even a breathy voice stand clear of its breath. Fed with whole 10 ms frames of
// C-weighted samples. Thread: one. It is a gate for voice activity, not a pitch meter: a period may come out doubled.
#include "common/signal/biquad.h"

#include <span>
#include <vector>

namespace vh
{

class Periodicity
{
public:
    struct Reading {
        bool ready = false;       ///< false for the first 60 ms: not yet enough signal to tell
        double strength = 0;      ///< 0 none .. 1 perfect
        double periodSeconds = 0; ///< 0 when strength is 0
    };

    explicit Periodicity(int sampleRateHz);

    Reading push(std::span<const double> frame);

private:
    void thin(std::span<const double> frame);
    [[nodiscard]] double strengthAt(std::size_t lag, double newestEnergy, double olderEnergy) const;

    int m_thinning;
    double m_thinRateHz;
    std::size_t m_shortest; ///< lags in thinned samples
    std::size_t m_longest;
    std::size_t m_window;

    Biquad m_highCut;
    Biquad m_lowCut;
    int m_phase = 0;
    std::size_t m_filled = 0;
    std::vector<float> m_past;       ///< the newest thinned samples, oldest first, longest + window of them
    std::vector<float> m_fresh;      ///< those of this frame
    std::vector<double> m_strengths; ///< by lag - shortest
};

} // namespace vh
