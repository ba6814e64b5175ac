#pragma once
// The far end taken out of the microphone, as far as a linear filter can, and what is known of the way between them:
// alignment, filter, and the figures by which a leak is judged. Whole frames of 10 ms. Thread: one. Allocates when
// built only.
#include "common/echo/alignment.h"
#include "common/echo/canceller.h"
#include "common/echo/coherence.h"
#include "common/echo/far_speech.h"
#include "common/echo/leak_judge.h"
#include "common/echo/thirds.h"
#include "common/signal/weighting.h"

namespace vh
{

class Removal
{
public:
    static constexpr std::size_t kBlock = 160;

    explicit Removal(int sampleRateHz);

    struct Heard {
        bool told = false;     ///< something is known of the way: `echo` means something
        double echo = 0;       ///< A-weighted mean square of the far end in this frame, as expected
        double echoAtMost = 0; ///< by loudness alone
        double coherence = 0;  ///< of what is left with that, of the frame before
        bool removed = false;
        bool fresh = false; ///< the way has just been found anew
    };
    /// `mic`: one frame, in place: the echo is taken away once the filter is worth it.
    Heard push(std::span<float> mic, std::span<const float> far);
    /// What the judge made of the frame just pushed: the filter learns while nothing but the loudspeaker sounds.
    /// `room`: A-weighted mean square of the room alone.
    void judged(const LeakJudge::Verdict& verdict, double room);

    [[nodiscard]] std::optional<double> delaySeconds() const;
    /// A-weighted, echo over far end; nothing while not known.
    [[nodiscard]] std::optional<double> leakDb() const;
    void begin(double delaySeconds, double leakDb);
    void restart();
    [[nodiscard]] const Alignment& alignment() const { return m_alignment; }

private:
    using Block = std::array<float, kBlock>;
    void startFilter();
    /// Nothing of the far end is under way any more: nothing need be done.
    [[nodiscard]] bool rests();
    Heard heardNow();
    /// The block before, in which the microphone is known as far as the far end is read ahead.
    void lookBack();
    void weigh(std::span<const float> far);
    void subtract(std::span<float> mic);
    void noteWorth(double micA, double restA);
    void noteLeak(double micA);
    /// The leak is no louder than this share of the far end, as far as was heard.
    [[nodiscard]] double leakAtMost() const;

    std::size_t m_thinning;
    std::size_t m_ahead;
    ToThird m_micThird, m_farThird;
    FromThird m_echoThird;
    Alignment m_alignment;
    Canceller m_canceller;
    Coherence m_coherence;
    FarSpeech m_speech;
    Weighting m_echoWeighting, m_farWeighting, m_restWeighting, m_micWeighting;

    Block m_mic{}, m_micBefore{};   ///< as pushed
    Block m_far{}, m_farBefore{};   ///< moved
    Block m_echo{}, m_echoBefore{}; ///< predicted for the moved far end
    Block m_rest{};                 ///< of the block before
    std::vector<float> m_wide;      ///< the echo at the microphone's rate
    double m_echoA = 0, m_farA = 0, m_farBeforeA = 0;
    double m_micMean = 0, m_restMean = 0; ///< slow, while the far end sounds
    double m_echoSum = 0, m_farSum = 0;
    /// Microphone over far end, A-weighted energies of half a second each: none is lower than the leak.
    struct Stretch {
        double mic = 0, far = 0;
    };
    std::array<Stretch, 8> m_stretches{};
    std::size_t m_stretch = 0; ///< the one that grows
    std::size_t m_stretchesKnown = 0;
    int m_inStretch = 0;
    double m_room = 0;                   ///< A-weighted mean square
    int m_run = 0;                       ///< blocks in which the far end went on, but for short gaps
    std::optional<double> m_knownLeakDb; ///< from before
    std::array<double, 8> m_farHeld{};   ///< the far end's loudest frames of the last 0.7 s, in stretches
    std::size_t m_frame = 0;
    double m_coherent = 0;
    bool m_worth = false;
    float m_gain = 0; ///< of what is subtracted, at the end of the last frame
    int m_learnt = 0; ///< blocks
    int m_sinceDoubt = 0;
    int m_changed = 0;
    bool m_fresh = false;
    std::size_t m_silent = 1000; ///< blocks of it, of the moved far end
    bool m_speaksBefore = false;
    int m_sincePerson = 1000; ///< blocks since the person was louder than the echo
};

} // namespace vh
