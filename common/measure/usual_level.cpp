#include "common/measure/usual_level.h"

#include <algorithm>
#include <cmath>
#include <span>
#include <utility>

namespace vh
{

namespace
{

/// Median of a few values; of an even number the mean of the two in the middle. `values` must not be empty.
float medianOf(std::span<const float> values)
{
    std::array<float, LevelCheck::kMostReadings> sorted{};
    static_assert(UsualLevel::kKept <= LevelCheck::kMostReadings);
    const std::size_t n = values.size();
    std::copy(values.begin(), values.end(), sorted.begin());
    std::sort(sorted.begin(), sorted.begin() + static_cast<std::ptrdiff_t>(n));
    return n % 2 == 1 ? sorted[n / 2] : (sorted[n / 2 - 1] + sorted[n / 2]) / 2;
}

void keep(UsualLevel& usual, float dbfsA)
{
    if (usual.valueCount == UsualLevel::kKept) {
        std::rotate(usual.values.begin(), usual.values.begin() + 1, usual.values.end());
        --usual.valueCount;
    }
    usual.values[usual.valueCount++] = dbfsA;
}

float medianOf(const UsualLevel& usual)
{
    return medianOf(std::span(usual.values).first(usual.valueCount));
}

/// Once the first week is over, what was found in it is the starting level; the first move is due a week later.
void closeFirstWeek(UsualLevel& usual, Instant at)
{
    if (!usual.startingLevelDbfsA && usual.firstAt && at - *usual.firstAt >= kWeek) {
        usual.startingLevelDbfsA = usual.levelDbfsA;
        usual.movedAt = *usual.firstAt + kWeek;
    }
}

} // namespace

UsualLevel withValue(UsualLevel usual, float dbfsA, Instant at)
{
    if (usual.suspended || !std::isfinite(dbfsA))
        return usual;
    closeFirstWeek(usual, at);
    keep(usual, dbfsA);
    if (!usual.firstAt)
        usual.firstAt = at;
    const float median = medianOf(usual);
    if (!usual.levelDbfsA) {
        usual.levelDbfsA = median;
    } else if (usual.frozen) {
        // the value is kept, the level is not touched
    } else if (!usual.startingLevelDbfsA) {
        usual.levelDbfsA = median;
    } else if (at - *usual.movedAt >= kWeek && median != *usual.levelDbfsA) {
        const float move = std::clamp(median - *usual.levelDbfsA, -kLargestMoveDb, kLargestMoveDb);
        usual.levelDbfsA = *usual.levelDbfsA + move;
        usual.movedAt = at;
    }
    return usual;
}

UsualLevel withSetupChanged(UsualLevel usual)
{
    usual.suspended = true;
    return usual;
}

UsualLevel withRecheck(UsualLevel usual, float dbfsA, Instant at)
{
    if (!std::isfinite(dbfsA))
        return usual;
    usual.suspended = false;
    if (!usual.levelDbfsA || std::abs(dbfsA - *usual.levelDbfsA) <= kSessionNoiseDb)
        return withValue(usual, dbfsA, at);
    closeFirstWeek(usual, at);
    const float shift = dbfsA - *usual.levelDbfsA;
    for (float& value : usual.values)
        value += shift;
    usual.levelDbfsA = dbfsA;
    if (usual.startingLevelDbfsA)
        usual.startingLevelDbfsA = *usual.startingLevelDbfsA + shift;
    return usual;
}

void LevelCheck::addReading(float dbfsA, Millis voiced, bool trusted)
{
    if (!std::exchange(m_firstDropped, true))
        return;
    if (!trusted || !std::isfinite(dbfsA) || m_count == kMostReadings)
        return;
    m_readings[m_count++] = dbfsA;
    m_voiced += voiced;
}

std::optional<float> LevelCheck::value(Millis needed) const
{
    if (m_count == 0 || m_voiced < needed)
        return std::nullopt;
    return medianOf(std::span(m_readings).first(m_count));
}

} // namespace vh
