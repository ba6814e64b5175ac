#pragma once
// The band under all voices, 20 to 50 Hz: rumble, mains hum and the microphone's own noise are in it, a voice is not
// (its lowest partial is its pitch, 80 Hz and more with all but the deepest). What moves there while somebody speaks is
// the microphone's gain. Butterworth, 8th order above and 2nd below: 95 Hz is 44 dB down. Double precision, for the
// reason given in biquad.h. Any rate from 8 kHz. Thread: one.
// Source of the sections' Q: 1 / (2 cos(pi (2 k + 1) / 16)), any text on Butterworth filters.
#include "common/signal/biquad.h"

#include <array>

namespace vh
{

class LowBand
{
public:
    static constexpr double kFromHz = 20;
    static constexpr double kToHz = 50;

    explicit LowBand(int sampleRateHz);

    double push(double in)
    {
        for (Biquad& each : m_sections)
            in = each.push(in);
        return in;
    }
    /// Once per frame: see dropDust.
    void tidy()
    {
        for (Biquad& each : m_sections)
            each.tidy();
    }

private:
    std::array<Biquad, 5> m_sections;
};

} // namespace vh
