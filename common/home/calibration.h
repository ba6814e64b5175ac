#pragma once
// From one reading of a sound level meter, held beside somebody who reads aloud, to absolute levels of this microphone:
// dB(A) at 30 cm from the mouth = level in dB(A) full scale + offset. Distance by the inverse distance law, which holds
// in a free field, so near the mouth only; the uncertainty is stated. Belongs to one device at one spot and input
// volume. Pure; any thread.
// Sources: GUM (JCGM 100:2008) 4.3.7 and 5.1 (half-widths over root 3, sum of squares), 6.3.1 (k = 2); IEC
// 61672-1:2013 Table 3 (limits between 250 Hz and 2 kHz, where a voice has its A-weighted energy); phones: Nast, Speer
// & Le Prell 2014, Noise Health 16:251. Distance and reading off: common practice.
#include "common/base/clock.h"
#include "common/base/result.h"

#include <cstdint>

namespace vh
{

enum class MeterKind : std::uint8_t {
    class1,
    class2,
    phone,   ///< a program on a telephone
    unknown, ///< counts as a telephone
};

struct CalibrationReading {
    float voiceDbfsA = -120; ///< energy mean of the reader's voice at our microphone
    float spreadDb = 0;      ///< standard uncertainty of that mean
    float meterDba = 0;
    float distanceCm = 30; ///< from the mouth to the meter
    MeterKind meter = MeterKind::unknown;
};

struct Calibration {
    float offsetDb = 0;      ///< to add to dB(A) full scale
    float uncertaintyDb = 0; ///< either way, k = 2: about 95 %
    Instant at{};
    friend bool operator==(const Calibration&, const Calibration&) = default;
};

inline constexpr float kNearestCm = 10;
inline constexpr float kFarthestCm = 100; ///< beyond it a room's own sound counts too
inline constexpr float kSoftestDba = 40;
inline constexpr float kLoudestDba = 110;

/// Refused where distance or reading lie outside these; the message is for the person.
[[nodiscard]] Result<Calibration> calibrate(const CalibrationReading& reading, Instant at);

} // namespace vh
