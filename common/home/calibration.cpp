#include "common/home/calibration.h"

#include <cmath>

namespace vh
{

namespace
{

constexpr double kReferenceCm = 30;
constexpr double kHeldWithinCm = 2;   ///< a hand, and a head that moves
constexpr double kReadWithinDb = 1.5; ///< off a figure that moves with the voice

/// Half-width, dB.
double limitsOf(MeterKind meter)
{
    switch (meter) {
    case MeterKind::class1:
        return 1.0;
    case MeterKind::class2:
        return 2.0;
    case MeterKind::phone:
    case MeterKind::unknown:
        break;
    }
    return 5.0;
}

/// The standard uncertainty of something that lies anywhere within +-half.
double evenWithin(double half)
{
    return half / std::sqrt(3.0);
}

bool within(float value, float least, float most)
{
    return value >= least && value <= most; // not a number is not
}

} // namespace

Result<Calibration> calibrate(const CalibrationReading& reading, Instant at)
{
    if (!within(reading.distanceCm, kNearestCm, kFarthestCm))
        return fail("distance", "The distance must be from 10 to 100 cm.");
    if (!within(reading.meterDba, kSoftestDba, kLoudestDba))
        return fail("level", "A meter beside somebody who reads aloud shows from 40 to 110 dB(A).");
    const double distance = static_cast<double>(reading.distanceCm);
    const double at30 = static_cast<double>(reading.meterDba) + 20 * std::log10(distance / kReferenceCm);
    const double perCm = 20 / (std::log(10.0) * distance); // d(20 lg d)/dd
    const double meter = evenWithin(limitsOf(reading.meter));
    const double held = evenWithin(perCm * kHeldWithinCm);
    const double read = evenWithin(kReadWithinDb);
    const double spread = static_cast<double>(reading.spreadDb);
    const double combined = std::sqrt(meter * meter + held * held + read * read + spread * spread);
    return Calibration{static_cast<float>(at30 - static_cast<double>(reading.voiceDbfsA)),
                       static_cast<float>(2 * combined), at};
}

} // namespace vh
