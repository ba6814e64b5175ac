#pragma once
// A and C frequency weighting of one microphone, sample by sample, 0 dB at 1 kHz each. At 48 kHz the response keeps
// within 0.2 dB of the design goal from 10 Hz to 20 kHz, well inside the class 1 limits (the microphone before it is
// another matter). Rates from 8 kHz work; the curves then end at half the rate. Thread: one.
// Source: IEC 61672-1:2013 Table 3 and Annex E (the four pole frequencies).
#include "common/signal/biquad.h"

namespace vh
{

class Weighting
{
public:
    struct Sample {
        double a = 0;
        double c = 0;
    };

    explicit Weighting(int sampleRateHz);

    /// The A curve is the C curve followed by two more high-pass poles, so both cost three sections.
    Sample push(double in)
    {
        const double c = m_lowCut.push(m_highCut.push(in));
        return {m_midCut.push(c), c};
    }
    /// Once per frame: see dropDust.
    void tidy()
    {
        m_highCut.tidy();
        m_lowCut.tidy();
        m_midCut.tidy();
    }

private:
    Biquad m_highCut; ///< double pole at 12.2 kHz
    Biquad m_lowCut;  ///< double pole at 20.6 Hz
    Biquad m_midCut;  ///< poles at 108 and 738 Hz
};

} // namespace vh
