#pragma once
// What the sound meter's parts make of the standard's test signals; used by the tests and by the bench.
#include "common/signal/level.h"
#include "common/signal/speech_level.h"
#include "common/signal/weighting.h"
#include "tests/common/signal/iec_61672.h"
#include "tests/common/signal/synthetic.h"

namespace vh::test
{

/// Weighted level of a steady sine against its unweighted level, dB, over the last second of three.
struct Gains {
    double aDb;
    double cDb;
};
inline Gains steadyGain(double hz)
{
    const double levelDb = -20.0;
    const Samples tone = sine(hz, 3.0, levelDb);
    Weighting weighting(kRateHz);
    LevelAccumulator a, c;
    for (std::size_t i = 0; i < tone.size(); ++i) {
        const Weighting::Sample out = weighting.push(tone[i]);
        if (i >= tone.size() * 2 / 3) {
            a.add(out.a * out.a);
            c.add(out.c * out.c);
        }
    }
    return {a.leqDb() - levelDb, c.leqDb() - levelDb};
}

/// Greatest A-weighted F and S level and sound exposure level of one 4 kHz burst, against the steady level of its tone.
struct BurstResponse {
    double fastDb;
    double slowDb;
    double exposureDb;
};
inline BurstResponse burstResponse(double milliseconds)
{
    const Samples signal = joined({sine(4000.0, milliseconds / 1000.0, -20.0), silence(1.0)});
    Weighting weighting(kRateHz);
    TimeWeighting fast(TimeWeighting::kFastSeconds, kRateHz);
    TimeWeighting slow(TimeWeighting::kSlowSeconds, kRateHz);
    LevelAccumulator exposure;
    double fastest = 0;
    double slowest = 0;
    for (const float sample : signal) {
        const double a = weighting.push(sample).a;
        fast.push(a * a);
        slow.push(a * a);
        exposure.add(a * a);
        fastest = std::max(fastest, fast.meanSquare());
        slowest = std::max(slowest, slow.meanSquare());
    }
    const double steadyDb = -20.0 + steadyGain(4000.0).aDb;
    return {dbOfMeanSquare(fastest) - steadyDb, dbOfMeanSquare(slowest) - steadyDb,
            exposure.exposureDb(kRateHz) - steadyDb};
}

/// P.56 of 1 kHz, -20 dB, switched on and off, 10 s; closed form: the envelope of a steady sine is steady.
struct SpeechLevelCase {
    double onSeconds, offSeconds;
    int times;
    double activeDb;
    double activity;
};
/// Computed outside the project from the formulas of P.56 with exact interpolation, 16 kHz.
inline constexpr SpeechLevelCase kSpeechLevelCases[] = {
    {10, 0, 1, -19.99, 0.9977}, {5, 5, 1, -20.23, 0.5272}, {1, 1, 5, -21.06, 0.6385}, {0.1, 0.1, 50, -23.00, 0.998}};

inline std::optional<SpeechLevel::Reading> speechLevelOf(const SpeechLevelCase& c, int rateHz)
{
    const Samples on = sine(1000.0, c.onSeconds, -20.0, rateHz);
    const Samples off = silence(c.offSeconds, rateHz);
    SpeechLevel level(rateHz);
    for (int i = 0; i < c.times; ++i) {
        level.push(on);
        level.push(off);
    }
    return level.reading();
}

} // namespace vh::test
