#pragma once
// A person's ordinary level for one kind of task, on one device at one spot: what every reading is compared with. It
// stays on the device. Levels are A-weighted, dB full scale. Plain values; the time is handed in.
//
// The usual level is the median of the last seven trusted values. In the first week it is being found and follows them;
// what it is when the week is over becomes the starting level. From then on it moves once in seven days at most, by 1
// dB at most, so that a slow decline cannot make itself the new normal unseen. Session noise of 2 dB: see docs of
// judging.
#include "common/base/clock.h"

#include <array>
#include <cstdint>
#include <optional>

namespace vh
{

/// Kinds of task that have a usual level of their own. A glide is measured but never has a standing by level.
enum class TaskKind : std::uint8_t {
    phrases,  ///< anything said as written: opening, warm-up, counting, phrases, back-of-tongue, passage, closing
    openTalk, ///< category naming and open talk
    vowel,    ///< a sustained vowel
    glide,
};

inline constexpr std::chrono::hours kWeek{24 * 7};
inline constexpr float kLargestMoveDb = 1.0F;
inline constexpr float kSessionNoiseDb = 2.0F;
inline constexpr Millis kRecheckLength{10'000};

struct UsualLevel {
    static constexpr std::size_t kKept = 7;
    std::array<float, kKept> values{}; ///< the last trusted ones, oldest first
    std::uint8_t valueCount = 0;
    std::optional<float> levelDbfsA;         ///< absent until the first value
    std::optional<float> startingLevelDbfsA; ///< absent in the first week
    std::optional<Instant> firstAt;
    std::optional<Instant> movedAt; ///< the last time the level was allowed to move
    bool frozen = false;            ///< values are collected, the level stays
    bool suspended = false;         ///< device, spot or input volume changed: no standings until a recheck

    /// The level to compare with now, if there is one that holds.
    [[nodiscard]] std::optional<float> inForce() const { return suspended ? std::nullopt : levelDbfsA; }
    friend bool operator==(const UsualLevel&, const UsualLevel&) = default;
};

/// One more trusted value. While suspended it is not taken: only a recheck lifts that.
[[nodiscard]] UsualLevel withValue(UsualLevel usual, float dbfsA, Instant at);
[[nodiscard]] UsualLevel withSetupChanged(UsualLevel usual);
/// What a recheck of 10 s gave. Within session noise nothing was really changed, and the value counts like any other;
/// beyond it the whole scale (values, usual and starting level) moves along with the microphone.
[[nodiscard]] UsualLevel withRecheck(UsualLevel usual, float dbfsA, Instant at);

/// One mic check: several short readings, of which the first is dropped (people start louder than they go on).
class LevelCheck
{
public:
    static constexpr std::size_t kMostReadings = 32;
    void addReading(float dbfsA, Millis voiced, bool trusted);
    /// Trusted voice beyond the first reading.
    [[nodiscard]] Millis voiced() const { return m_voiced; }
    /// Median of what counts; nothing as long as less than `needed` was heard, or nothing at all.
    [[nodiscard]] std::optional<float> value(Millis needed = Millis{0}) const;

private:
    std::array<float, kMostReadings> m_readings{};
    std::size_t m_count = 0;
    bool m_firstDropped = false;
    Millis m_voiced{0};
};

} // namespace vh
