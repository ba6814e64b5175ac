#pragma once
// How periodic the last 40 ms are, as a voice is: the greatest normalised cross-correlation of the signal with itself
// one period earlier, periods 1 to 16.5 ms (60 to 1000 Hz: higher than voices, so that a bark is not taken for one an
// octave below). Works on a copy thinned to about 4 kHz and cut to 80-1100 Hz, where the low harmonics of even a breathy
// voice stand clear of its breath. `steady` is the same of the correlation averaged over about 40 ms more: chance
// likenesses of noise differ from frame to frame and average out, a period stays. Fed with whole 10 ms frames of
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
        double steady = 0;        ///< the same of the averaged correlation
        double periodSeconds = 0; ///< of the averaged correlation; 0 when steady is 0
    };

    explicit Periodicity(int sampleRateHz);

    Reading push(std::span<const double> frame);

private:
    void thin(std::span<const double> frame);
    /// Brings m_strengths up to date; the greatest of this frame by itself.
    double correlate();
    [[nodiscard]] double strengthAt(std::size_t lag, double newestEnergy, double olderEnergy) const;

    int m_thinning;
    double m_thinRateHz;
    std::size_t m_shortest; ///< lags in thinned samples
    std::size_t m_longest;
    std::size_t m_window;

    Biquad m_highCut;
    Biquad m_highCutAgain;
    Biquad m_lowCut;
    int m_phase = 0;
    std::size_t m_filled = 0;
    std::vector<float> m_past;       ///< the newest thinned samples, oldest first, longest + window of them
    std::vector<float> m_fresh;      ///< those of this frame
    std::vector<double> m_strengths; ///< averaged, by lag - shortest
};

} // namespace vh
