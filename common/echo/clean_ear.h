#pragma once
// A meter that hears only the person: the microphone and the known far end (what was handed to the loudspeaker in the
// same stretch of time) go in, one VoiceFrame comes out for each completed 10 ms, as late as the meter's own
// (Meter::kDelayFrames), with whose, leakMeanSquareA and Blank::loudspeakerTooLoud filled in. Mono float at 48 kHz (or
// 16 kHz), full scale 1.0. While the far end is silent it is exactly Meter. Deterministic: how the samples are cut into
// calls changes nothing. Thread: one at a time, any. push never allocates, locks or logs.
#include "common/echo/echo_path.h"
#include "common/echo/leak_judge.h"
#include "common/echo/removal.h"
#include "common/signal/meter.h"

#include <algorithm>
#include <array>
#include <optional>
#include <span>
#include <vector>

namespace vh
{

class CleanEar
{
public:
    /// 16 kHz or 48 kHz (asserted).
    explicit CleanEar(int sampleRateHz = 48'000);

    /// Both equally long; where `far` is shorter, nothing is played. Calls sink(const VoiceFrame&) for every 10 ms
    /// completed, in order.
    template <class Sink>
    void push(std::span<const float> mic, std::span<const float> far, Sink&& sink)
    {
        while (!mic.empty()) {
            const std::size_t taken = take(mic, far);
            mic = mic.subspan(taken);
            far = far.subspan(std::min(taken, far.size()));
            if (m_filled < m_mic.size())
                continue;
            if (const auto frame = completeFrame())
                sink(*frame);
        }
    }

    /// What has been learnt of the way from the loudspeaker to the microphone; nothing while it is not known. A
    /// headset, from which nothing comes back, is known after a few seconds of the far end: leakDb is then -120.
    [[nodiscard]] std::optional<EchoPath> path() const;
    /// What was learnt earlier, on the same devices at the same spot: a beginning, which is corrected as it is heard.
    void usePath(const EchoPath& path);
    /// Microphone or loudspeaker have changed, or sound was lost: everything about the way between them is learnt anew.
    void restart();

    [[nodiscard]] const Meter& meter() const { return m_meter; }
    void restartMeasurement() { m_meter.restartMeasurement(); }

private:
    std::size_t take(std::span<const float> mic, std::span<const float> far);
    /// What was found of a frame when it came in; applied when the meter gives it out.
    struct Mark {
        std::optional<LeakJudge::Verdict> verdict; ///< none: the way is not known
        bool careful = false;                      ///< and something may be on it
        bool clipped = false;
    };

    /// The frame of Meter::kDelayFrames ago; nothing at the beginning.
    std::optional<VoiceFrame> completeFrame();
    Mark markOf(const Removal::Heard& heard);
    static void apply(const Mark& mark, VoiceFrame& frame);

    std::vector<float> m_mic;
    std::vector<float> m_far;
    std::size_t m_filled = 0;
    ClippingDetector m_clipping; ///< of the microphone as it is
    Removal m_removal;
    LeakJudge m_judge;
    Meter m_meter;
    int m_sinceFar = 1000;                             ///< frames
    std::array<Mark, Meter::kDelayFrames + 1> m_marks; ///< of the frames that the meter holds, oldest first
    std::size_t m_markCount = 0;
};

} // namespace vh
