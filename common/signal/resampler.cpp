#include "common/signal/resampler.h"

#include <algorithm>
#include <cassert>
#include <samplerate.h>
#include <stdexcept>
#include <string>

namespace vh
{

namespace
{
constexpr std::size_t kPiece = 1024;
}

void Resampler::Closer::operator()(SRC_STATE_tag* state) const
{
    src_delete(state);
}

Resampler::Resampler(int fromRateHz, int toRateHz) : m_ratio(static_cast<double>(toRateHz) / fromRateHz), m_out(kPiece)
{
    for (const int rate : {fromRateHz, toRateHz}) {
        if (rate < kLowestRateHz || rate > kHighestRateHz)
            throw std::runtime_error("sample rate " + std::to_string(rate) + " Hz is outside 8000..192000 Hz");
    }
    if (fromRateHz == toRateHz)
        return;
    int error = 0;
    // 97 dB of signal to noise, flat to 80 % of half the lower rate: beyond what a voice level needs.
    m_state.reset(src_new(SRC_SINC_FASTEST, 1, &error));
    if (!m_state)
        throw std::runtime_error(std::string("resampler: ") + src_strerror(error));
}

void Resampler::restart()
{
    if (m_state)
        src_reset(m_state.get());
}

std::span<const float> Resampler::convert(std::span<const float>& samples)
{
    SRC_DATA data{};
    data.data_in = samples.data();
    data.input_frames = static_cast<long>(samples.size());
    data.data_out = m_out.data();
    data.output_frames = static_cast<long>(m_out.size());
    data.src_ratio = m_ratio;
    const int error = src_process(m_state.get(), &data);
    assert(error == 0 && "arguments were checked at construction");
    if (error != 0 || (data.input_frames_used == 0 && data.output_frames_gen == 0)) {
        samples = {}; // cannot happen; if it did, a gap is better than a hang
        return {};
    }
    samples = samples.subspan(static_cast<std::size_t>(data.input_frames_used));
    return {m_out.data(), static_cast<std::size_t>(data.output_frames_gen)};
}

} // namespace vh
