#include "common/signal/level.h"
#include "common/signal/speech_level.h"
#include "tests/ground/voices.h"

#include <algorithm>

namespace vh::ground
{

namespace
{

constexpr std::size_t kFrame = kVoiceRateHz / 100;
constexpr double kUnderActiveDb = 30;
constexpr double kOverQuietestDb = 6;
constexpr double kRoomHeardDb = 15;
constexpr std::size_t kBridgedFrames = 20;
constexpr std::size_t kShortestFrames = 3;

/// Turns runs of `value` shorter than `frames` into the opposite; not those at either end.
void dropShortRuns(std::vector<bool>& labels, bool value, std::size_t frames)
{
    std::size_t at = 0;
    while (at < labels.size()) {
        std::size_t end = at;
        while (end < labels.size() && labels[end] == labels[at])
            ++end;
        if (labels[at] == value && end - at < frames && at > 0 && end < labels.size())
            std::fill(labels.begin() + static_cast<std::ptrdiff_t>(at), labels.begin() + static_cast<std::ptrdiff_t>(end),
                      !value);
        at = end;
    }
}

} // namespace

std::vector<bool> speechFrames(std::span<const float> clean)
{
    const std::size_t count = clean.size() / kFrame;
    SpeechLevel level(kVoiceRateHz);
    std::vector<double> energy(count);
    for (std::size_t i = 0; i < count; ++i) {
        const auto frame = clean.subspan(i * kFrame, kFrame);
        level.push(frame);
        for (const float sample : frame)
            energy[i] += static_cast<double>(sample) * sample / kFrame;
    }
    const auto reading = level.reading();
    if (!reading || count < 3)
        return std::vector<bool>(count, false);
    std::vector<double> smooth(count);
    for (std::size_t i = 0; i < count; ++i)
        smooth[i] = (energy[i > 0 ? i - 1 : i] + energy[i] + energy[i + 1 < count ? i + 1 : i]) / 3;
    std::vector<double> sorted = smooth;
    std::sort(sorted.begin(), sorted.end());
    const double quietest = dbOfMeanSquare(sorted[count / 10]);
    double least = reading->activeDb - kUnderActiveDb;
    if (quietest < reading->activeDb - kRoomHeardDb) // else it has no pause: a held vowel
        least = std::max(least, quietest + kOverQuietestDb);
    std::vector<bool> labels(count);
    for (std::size_t i = 0; i < count; ++i)
        labels[i] = dbOfMeanSquare(smooth[i]) >= least;
    dropShortRuns(labels, true, kShortestFrames);
    dropShortRuns(labels, false, kBridgedFrames);
    return labels;
}

} // namespace vh::ground
