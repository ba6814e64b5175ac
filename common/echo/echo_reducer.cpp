#include "common/echo/echo_reducer.h"

#include <speex/speex_echo.h>
#include <speex/speex_preprocess.h>

#include <algorithm>
#include <cmath>

namespace vh
{

namespace
{

constexpr int kRateHz = 48'000;
constexpr float kScale = 32'768;
constexpr float kSilent = 1e-6F; // mean square: -60 dB; a far end of zeros, or its codec's murmur
constexpr int kSuppressDb = -45;
constexpr int kSuppressWhileNearSpeaksDb = -15; // the library's own value; more takes too much of the near voice

spx_int16_t toWhole(float sample)
{
    return static_cast<spx_int16_t>(std::lround(std::clamp(sample, -1.0F, 32'767.0F / kScale) * kScale));
}

template <class Value>
void set(SpeexPreprocessState* state, int what, Value value)
{
    speex_preprocess_ctl(state, what, &value);
}

} // namespace

void EchoReducer::EchoCloser::operator()(SpeexEchoState_* state) const
{
    speex_echo_state_destroy(state);
}

void EchoReducer::PreprocessCloser::operator()(SpeexPreprocessState_* state) const
{
    speex_preprocess_state_destroy(state);
}

EchoReducer::EchoReducer()
    : m_echo(speex_echo_state_init(kFrame, kTail)), m_suppression(speex_preprocess_state_init(kFrame, kRateHz))
{
    spx_int32_t rate = kRateHz;
    speex_echo_ctl(m_echo.get(), SPEEX_ECHO_SET_SAMPLING_RATE, &rate);
    speex_preprocess_ctl(m_suppression.get(), SPEEX_PREPROCESS_SET_ECHO_STATE, m_echo.get());
    // With noise suppression off the library would not apply the gain for the echo either; by 0 dB it does nothing
    // else.
    set<spx_int32_t>(m_suppression.get(), SPEEX_PREPROCESS_SET_DENOISE, 1);
    set<spx_int32_t>(m_suppression.get(), SPEEX_PREPROCESS_SET_NOISE_SUPPRESS, 0);
    set<spx_int32_t>(m_suppression.get(), SPEEX_PREPROCESS_SET_ECHO_SUPPRESS, kSuppressDb);
    set<spx_int32_t>(m_suppression.get(), SPEEX_PREPROCESS_SET_ECHO_SUPPRESS_ACTIVE, kSuppressWhileNearSpeaksDb);
}

void EchoReducer::restart()
{
    speex_echo_state_reset(m_echo.get());
    m_filled = 0;
    m_before.fill(0);
    m_sinceFar = kHold;
    m_share = 0;
}

void EchoReducer::frame()
{
    float sum = 0;
    for (const float sample : m_far)
        sum += sample * sample;
    m_sinceFar = sum > kSilent * kFrame ? 0 : std::min(m_sinceFar + 1, kHold);
    const bool wanted = m_sinceFar < kHold;
    if (wanted || m_share > 0)
        reduce();
    // From one to the other within a frame: both are equally late, so nothing is heard of it.
    const float step = (wanted ? 1.0F : -1.0F) / kFrame;
    for (std::size_t i = 0; i < kFrame; ++i) {
        m_share = std::clamp(m_share + step, 0.0F, 1.0F);
        m_out[i] = m_share > 0 ? m_before[i] + m_share * (m_reduced[i] - m_before[i]) : m_before[i];
    }
    m_before = m_near;
}

void EchoReducer::reduce()
{
    std::array<spx_int16_t, kFrame> near{};
    std::array<spx_int16_t, kFrame> far{};
    std::array<spx_int16_t, kFrame> out{};
    std::transform(m_near.begin(), m_near.end(), near.begin(), toWhole);
    std::transform(m_far.begin(), m_far.end(), far.begin(), toWhole);
    speex_echo_cancellation(m_echo.get(), near.data(), far.data(), out.data());
    speex_preprocess_run(m_suppression.get(), out.data());
    std::transform(out.begin(), out.end(), m_reduced.begin(),
                   [](spx_int16_t sample) { return static_cast<float>(sample) / kScale; });
}

} // namespace vh
