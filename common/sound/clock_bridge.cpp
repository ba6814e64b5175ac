#include "common/sound/clock_bridge.h"

#include <algorithm>
#include <samplerate.h>
#include <stdexcept>
#include <string>

namespace vh
{

void ClockBridge::Closer::operator()(SRC_STATE_tag* state) const
{
    src_delete(state);
}

ClockBridge::ClockBridge()
{
    int error = 0;
    m_state.reset(src_new(SRC_SINC_FASTEST, 1, &error));
    if (!m_state)
        throw std::runtime_error(std::string("resampler: ") + src_strerror(error));
    setSpeed(0);
}

void ClockBridge::setSpeed(double speed)
{
    m_speed = std::clamp(speed, -0.01, 0.01);
    // Set, not handed to src_process alone: that would slide from the old ratio and leave the position unknown.
    src_set_ratio(m_state.get(), 1 / (1 + m_speed));
}

std::size_t ClockBridge::convert(std::span<float> out)
{
    SRC_DATA data{};
    data.data_in = m_piece.data();
    data.input_frames = static_cast<long>(m_piece.size());
    data.data_out = out.data();
    data.output_frames = static_cast<long>(out.size());
    data.src_ratio = 1 / (1 + m_speed);
    const int error = src_process(m_state.get(), &data);
    if (error != 0 || (data.input_frames_used == 0 && data.output_frames_gen == 0)) {
        // Cannot happen with these arguments; if it did, silence is better than a hang.
        m_piece = {};
        std::ranges::fill(out, 0.0F);
        return out.size();
    }
    m_piece = m_piece.subspan(static_cast<std::size_t>(data.input_frames_used));
    m_given += static_cast<double>(data.output_frames_gen) * (1 + m_speed);
    return static_cast<std::size_t>(data.output_frames_gen);
}

} // namespace vh
