#include "common/signal/low_band.h"

namespace vh
{

LowBand::LowBand(int sampleRateHz)
    : m_sections{Biquad(butterworthHighPass(kFromHz, sampleRateHz)), Biquad(lowPass(kToHz, sampleRateHz, 0.5098)),
                 Biquad(lowPass(kToHz, sampleRateHz, 0.6013)), Biquad(lowPass(kToHz, sampleRateHz, 0.9000)),
                 Biquad(lowPass(kToHz, sampleRateHz, 2.5629))}
{
}

} // namespace vh
