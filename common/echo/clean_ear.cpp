#include "common/echo/clean_ear.h"

#include <cassert>
#include <cmath>

namespace vh
{

namespace
{
constexpr int kFramesPerSecond = 1000 / VoiceFrame::kMilliseconds;
constexpr float kSilent = 1e-4F;
/// The longest way through devices and air (600 ms) and a long reverberation.
constexpr int kLingersFrames = 140;
} // namespace

CleanEar::CleanEar(int sampleRateHz)
    : m_mic(static_cast<std::size_t>(sampleRateHz / kFramesPerSecond)), m_far(m_mic.size()), m_meter(sampleRateHz)
{
    assert(sampleRateHz == 16'000 || sampleRateHz == 48'000);
}

void CleanEar::restart()
{
    m_path.reset();
}

std::size_t CleanEar::take(std::span<const float> mic, std::span<const float> far)
{
    const std::size_t count = std::min(mic.size(), m_mic.size() - m_filled);
    const auto at = static_cast<std::ptrdiff_t>(m_filled);
    std::copy_n(mic.begin(), count, m_mic.begin() + at);
    const std::size_t played = std::min(count, far.size());
    std::copy_n(far.begin(), played, m_far.begin() + at);
    std::fill_n(m_far.begin() + at + static_cast<std::ptrdiff_t>(played), count - played, 0.0F);
    m_filled += count;
    return count;
}

VoiceFrame CleanEar::completeFrame()
{
    m_filled = 0;
    const bool plays = std::any_of(m_far.begin(), m_far.end(), [](float s) { return std::abs(s) > kSilent; });
    m_sinceFar = plays ? 0 : m_sinceFar + 1;
    VoiceFrame frame;
    m_meter.push(m_mic, [&frame](const VoiceFrame& metered) { frame = metered; });
    frame.whose = frame.voiced ? Whose::person : Whose::room;
    if (m_sinceFar > kLingersFrames)
        return frame;
    frame.leakMeanSquareA = frame.meanSquareA; // not told apart yet: it may all be leak
    if (frame.voiced) {
        frame.whose = Whose::cantTell;
        if (frame.blank == Blank::none)
            frame.blank = Blank::loudspeakerTooLoud;
    }
    return frame;
}

} // namespace vh
