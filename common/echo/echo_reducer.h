#pragma once
// For listening, not for metering: takes the loudspeaker out of a microphone whose sound goes to other people, so that
// they do not hear themselves. speexdsp's canceller and the residual suppression of its preprocessor (noise suppression
// and gain control off): where both sides speak it takes some dB off the near voice, which a meter could not bear and a
// listener hardly notices. While the far end has been silent for a second the microphone passes unchanged, as late as
// it would come otherwise (kDelay). 48 kHz mono, full scale 1.0. Thread: one. push never allocates, locks or logs.
#include <array>
#include <cstddef>
#include <memory>
#include <span>

struct SpeexEchoState_;
struct SpeexPreprocessState_;

namespace vh
{

class EchoReducer
{
public:
    static constexpr std::size_t kFrame = 480;        ///< 10 ms
    static constexpr std::size_t kDelay = kFrame;     ///< the suppression's own; and up to a frame while one fills
    static constexpr std::size_t kTail = 40 * kFrame; ///< 400 ms: playing, room and capturing together

    EchoReducer();

    /// Both equally long. Calls sink(std::span<const float, kFrame>) for each 10 ms completed.
    template <class Sink>
    void push(std::span<const float> microphone, std::span<const float> farEnd, Sink&& sink)
    {
        for (std::size_t i = 0; i < microphone.size(); ++i) {
            m_near[m_filled] = microphone[i];
            m_far[m_filled] = i < farEnd.size() ? farEnd[i] : 0.0F;
            if (++m_filled < kFrame)
                continue;
            m_filled = 0;
            frame();
            sink(std::span<const float, kFrame>(m_out));
        }
    }
    /// Devices have changed, or there was a gap.
    void restart();
    /// Whether it works now, or lets pass.
    [[nodiscard]] bool works() const { return m_share > 0; }

private:
    struct EchoCloser {
        void operator()(SpeexEchoState_* state) const;
    };
    struct PreprocessCloser {
        void operator()(SpeexPreprocessState_* state) const;
    };

    void frame();
    void reduce();

    std::unique_ptr<SpeexEchoState_, EchoCloser> m_echo;
    std::unique_ptr<SpeexPreprocessState_, PreprocessCloser> m_suppression;
    std::array<float, kFrame> m_near{};
    std::array<float, kFrame> m_far{};
    std::size_t m_filled = 0;
    std::array<float, kFrame> m_before{}; ///< the microphone's last frame
    std::array<float, kFrame> m_reduced{};
    std::array<float, kFrame> m_out{};
    int m_sinceFar = kHold; ///< frames
    float m_share = 0;      ///< of the reduced sound in what comes out
    static constexpr int kHold = 100;
};

} // namespace vh
