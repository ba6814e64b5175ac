#pragma once
// A leader's sound all the way to a home, in simulated time: capture callbacks -> VoiceSender -> a line -> VoicePlayer
// -> playback callbacks, each end on a clock of its own. What is measured is the delay of the sample that is heard:
// from the moment it was at the microphone to the moment it would leave a loudspeaker without a buffer. So it holds the
// capture callback's length, the frame, the codec's look-ahead, the line and all of our own buffer; not the devices'.
// Thread: one.
#include "common/sound/voice_player.h"
#include "common/sound/voice_sender.h"
#include "tests/stage/line_model.h"

#include <functional>
#include <vector>

namespace vh::test
{

struct JourneyPlan {
    double seconds = 60;
    stage::LineTraits line = {};
    std::uint64_t seed = 1;
    std::size_t captureChunk = 480; ///< samples a callback
    std::size_t playbackChunk = 480;
    double leaderPpm = 0; ///< how much faster than true the leader's clock runs
    double homePpm = 0;
    VoiceCoding coding = {};
    /// The leader's sound from its sample `first` on; silence if there is none.
    std::function<void(std::uint64_t first, std::span<float> into)> source = {};
    /// Before each capture callback: mute, bell and so on.
    std::function<void(double ms, VoiceSender& sender)> leader = {};
    /// Each frame before it goes on the line: false to lose it.
    std::function<bool(const wire::SoundHead& head)> relay = {};
    bool keepSound = false;
};

struct Journey {
    struct Moment {
        double ms = 0;
        double delayMs = 0; ///< of the last sample heard
    };
    std::vector<Moment> moments; ///< one for each playback callback in which sound moved on
    std::vector<float> heard;    ///< if it was to be kept
    std::vector<std::uint64_t> heardUpTo;
    SoundStats stats;
    std::size_t packets = 0;
    std::size_t bytes = 0;

    [[nodiscard]] std::vector<double> delays(double fromMs = 0) const;
};

Journey travel(const JourneyPlan& plan);

/// What the stalls of a journey's line did: the slowest way back to at most 400 ms behind, and the most that it was
/// behind from one to ten seconds after a stall's end.
struct AfterStalls {
    std::size_t stalls = 0;
    double backMs = 0;
    double behindMs = 0;
};
AfterStalls afterStalls(const Journey& journey, const JourneyPlan& plan);

/// The lowest value that `share` of them do not exceed; 0 of none.
double quantile(std::vector<double> values, double share);

/// A class leader's speech by the synthetic voice: phrases with pauses between, some held vowels; repeats after its
/// end.
const std::vector<float>& leaderSpeech();
std::function<void(std::uint64_t, std::span<float>)> speaking();
std::function<void(std::uint64_t, std::span<float>)> tone(double hz, double amplitude);

} // namespace vh::test
