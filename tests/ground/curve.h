#pragma once
// Voice activity frame by frame: ours at every threshold of its confidence, and the reference at its settings, on the
// same frames against the same labels. Thread: one.
#include "tests/ground/noises.h"
#include "tests/ground/reference.h"
#include "tests/ground/voices.h"

#include <array>
#include <optional>

namespace vh::ground
{

struct Score {
    std::int64_t hits = 0;
    std::int64_t misses = 0;
    std::int64_t falseAlarms = 0;
    std::int64_t rightSilences = 0;
    void see(bool labelled, bool said);
    [[nodiscard]] double precision() const;
    [[nodiscard]] double recall() const;
    [[nodiscard]] double f1() const;
    [[nodiscard]] double missPercent() const;
    [[nodiscard]] double falseAlarmPercent() const;
};

/// Thresholds of confidence: 0.05, 0.10 ... 0.95.
inline constexpr std::size_t kThresholds = 19;
inline constexpr std::size_t kVoicedThreshold = 9; ///< 0.5
[[nodiscard]] constexpr double thresholdAt(std::size_t i) { return 0.05 * static_cast<double>(i + 1); }

/// Speech as it is, or with a noise `snrDb` under it.
struct Condition {
    std::optional<Noise> noise;
    double snrDb = 0;
};
/// Of the figure for recorded speech: as it is, and with steady noises at 20, 10 and 5 dB.
extern const std::vector<Condition> kRecordedConditions;

struct Comparison {
    std::array<Score, kThresholds> ours;
    std::array<Score, kReferenceSettings> reference;
};

/// Each recording in each condition, after one second of its own room and noise (not counted) so that both detectors
/// know the room. Labels: speechFrames() of the recording as it is.
Comparison compared(std::span<const Recording> speech, std::span<const Condition> conditions, std::uint64_t seed,
                    std::span<const Samples> talk = {});

} // namespace vh::ground
