#pragma once
// What one home gets of the sound that the hall carries: which frames came, which stretches are missing, and how much
// later each came than the quickest of its stream. Plays nothing. A mute is no loss: what is missing counts only while
// the stream goes on. Thread: the loop's.
#include "common/wire/binary.h"
#include "common/wire/to_client.h"

#include <array>
#include <chrono>
#include <optional>

namespace vh::chorus
{

/// Of all homes together. Counts only grow.
struct SoundTotals {
    static constexpr std::size_t kMostDelayMs = 4'000;

    std::uint64_t frames = 0;
    std::uint64_t lostStretches = 0;
    std::uint64_t lostFrames = 0;
    std::array<std::uint32_t, kMostDelayMs + 1> delays{}; ///< frames by whole ms; the last: all that came later

    /// So many ms later than the quickest, at most, came this share of the frames.
    [[nodiscard]] std::size_t delayMs(double share) const;
};

class Hearing
{
public:
    void lineIsNew(const wire::Welcome& welcome);
    void voiceIs(const wire::VoiceNow& voice);
    void speakingIs(const wire::Speaking& speaking);
    /// False: not a sound frame that can be read.
    bool frame(std::span<const std::uint8_t> bytes, std::chrono::steady_clock::time_point at, SoundTotals& totals);

private:
    struct Stream {
        std::optional<std::uint32_t> number;
        std::optional<std::uint64_t> next; ///< sample with which the next frame begins, if none is missing
        std::optional<double> quickestMs;  ///< arrival less the frame's own time
        void is(std::optional<std::uint32_t> now);
    };
    static void take(Stream& stream, std::uint64_t firstSample, double arrivedMs, SoundTotals& totals);

    Stream m_leader;
    Stream m_speaker;
};

} // namespace vh::chorus
