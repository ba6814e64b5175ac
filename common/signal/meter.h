#pragma once
// The whole chain of one home's microphone: samples in, one VoiceFrame out for each completed 10 ms, kDelayFrames
// later: whether it was the beginning of a voice is plain only a moment after. A and C weighting, Fast and Slow, Leq,
// P.56 active level, clipping, room noise, voice activity. Samples: mono float, full scale 1.0; what is not a number
// counts as 0, what lies beyond +-8 is cut there. Levels in dB re full scale (mean square 1.0 = 0 dB), never below
// -120; between frames they are those of the last completed 10 ms. Deterministic: how the samples are cut into calls
// changes nothing. Thread: one at a time, any. push never allocates, locks or logs.
#include "common/signal/faults.h"
#include "common/signal/level.h"
#include "common/signal/low_band.h"
#include "common/signal/periodicity.h"
#include "common/signal/sound_shape.h"
#include "common/signal/speech_level.h"
#include "common/signal/voice_activity.h"
#include "common/signal/voice_frame.h"
#include "common/signal/weighting.h"

#include <array>
#include <optional>
#include <span>
#include <vector>

namespace vh
{

class Meter
{
public:
    /// A multiple of 100 Hz from 8 kHz up (asserted); use Resampler for anything but 48 kHz, where the curves are
    /// right.
    explicit Meter(int sampleRateHz = 48'000);

    /// How many frames are held back: with the sample that completes the frame n, frame n - kDelayFrames comes out.
    static constexpr std::size_t kDelayFrames = 6;

    /// Calls sink(const VoiceFrame&) for every 10 ms, in order.
    template <class Sink>
    void push(std::span<const float> samples, Sink&& sink)
    {
        while (!samples.empty()) {
            samples = samples.subspan(take(samples));
            if (m_filled < m_frame.size())
                continue;
            completeFrame();
            if (m_heldCount > kDelayFrames)
                sink(release());
        }
    }

    /// A new measurement (a turn, an utterance): Leq, voiced Leq, P.56 and the clipping latch begin anew. Filters, time
    /// weighting, room and activity go on.
    void restartMeasurement();

    /// The frame that was completed last, as it was judged at once: it may yet be found to begin a voice.
    [[nodiscard]] VoiceFrame newest() const;

    [[nodiscard]] double fastADb() const { return m_fastA.db(); }
    [[nodiscard]] double slowADb() const { return m_slowA.db(); }
    [[nodiscard]] double fastCDb() const { return m_fastC.db(); }
    [[nodiscard]] double slowCDb() const { return m_slowC.db(); }
    /// Since restartMeasurement(); count() is in frames. Trusted frames only count as voiced, when they come out.
    [[nodiscard]] const LevelAccumulator& leqA() const { return m_leqA; }
    [[nodiscard]] const LevelAccumulator& leqC() const { return m_leqC; }
    [[nodiscard]] const LevelAccumulator& voicedLeqA() const { return m_voicedLeqA; }
    [[nodiscard]] std::optional<SpeechLevel::Reading> speechLevel() const { return m_speechLevel.reading(); }
    [[nodiscard]] bool clippingShown() const { return m_clipping.shown(); }
    [[nodiscard]] bool clippedInMeasurement() const { return m_clipping.sinceRestart(); }
    [[nodiscard]] bool noSignal() const { return m_deadLine.noSignal(); }
    /// The room without the voice; nothing while it was not heard without a voice yet.
    [[nodiscard]] std::optional<double> noiseFloorADb() const;

private:
    std::size_t take(std::span<const float> samples);
    struct Held {
        VoiceFrame frame;      ///< whether it is voiced, and blank for a room too near the voice, is not known yet
        bool mayBegin = false; ///< a voice that is sure later
    };

    void completeFrame();
    /// What a frame of this confidence says of those before it.
    void lookBack(float confidence);
    /// The oldest of the held frames, as it goes out.
    VoiceFrame release();
    /// Weighs the frame into m_c, brings the four time weightings up to date; the frame's mean squares.
    Weighting::Sample weighFrame();
    double lowMeanSquare();

    std::vector<float> m_frame;
    std::size_t m_filled = 0;
    std::vector<double> m_c;                     ///< C-weighted samples of the frame
    std::array<Held, kDelayFrames + 1> m_held{}; ///< oldest first
    std::size_t m_heldCount = 0;

    Weighting m_weighting;
    LowBand m_low;
    TimeWeighting m_fastA;
    TimeWeighting m_slowA;
    TimeWeighting m_fastC;
    TimeWeighting m_slowC;
    LevelAccumulator m_leqA;
    LevelAccumulator m_leqC;
    LevelAccumulator m_voicedLeqA;
    SpeechLevel m_speechLevel;
    ClippingDetector m_clipping;
    DeadLineDetector m_deadLine;
    Periodicity m_periodicity;
    SoundShape m_shape;
    VoiceActivity m_activity;
    bool m_learned = false;        ///< from the frame before
    double m_voicedMeanSquare = 0; ///< A-weighted, over about the last half second of voice; 0: not voiced
};

} // namespace vh
