#pragma once
// The glottal source: the derivative of the flow through the glottis, one pulse a period, as KLGLOTT88. Within the open
// part of a period, x from 0 to 1, flow is x^2 - x^3 and its derivative 2x - 3x^2; then the folds close at once.
// Periods and amplitudes vary by jitter and shimmer; while creaky, every other pulse comes early and weak. Thread: one.
// Source: Klatt and Klatt 1990, J Acoust Soc Am 87:820 (pulse, tilt as one pole, double pulses).
#include "common/voice/random.h"
#include "common/voice/voice.h"

#include <span>

namespace vh::voice
{

class Glottis
{
public:
    Glottis(const VoiceTraits& traits, Random random);

    struct Stretch {
        double pitchFromHz = 100, pitchToHz = 100; ///< moves evenly
        bool creaky = false;
    };
    /// Fills `pulses` with the pulse at amplitude 1, and `open` with how much breath comes through: 1 open, 0.5 closed.
    void push(const Stretch& stretch, std::span<double> pulses, std::span<double> open);

private:
    void beginPeriod(bool creaky);

    double m_openQuotient;
    double m_periodSd;    ///< of one period, share of it
    double m_amplitudeSd; ///< of one pulse
    double m_take;        ///< of the tilt's one pole
    Random m_random;
    double m_phase = 0; ///< of the period, 0..1, from closure to closure
    double m_speed = 1; ///< of this period, over that of the pitch
    double m_amplitude = 1;
    double m_tilted = 0;
    bool m_odd = false;
};

} // namespace vh::voice
