#include "common/home/other_voices.h"

#include <cmath>

namespace vh
{

namespace
{
constexpr std::uint32_t kFramesPerSecond = 1000 / VoiceFrame::kMilliseconds;
constexpr std::uint32_t kLeastVoiced = kFramesPerSecond * 3 / 2;
constexpr std::uint32_t kLeastShare = 7;
} // namespace

void OtherVoices::begin()
{
    m_late = kFramesPerSecond;
}

void OtherVoices::add(const VoiceFrame& frame)
{
    if (m_late > 0) {
        --m_late;
        return;
    }
    if (m_seconds[m_at].frames >= kFramesPerSecond) {
        m_at = (m_at + 1) % kSeconds;
        m_seconds[m_at] = {};
    }
    Second& now = m_seconds[m_at];
    ++now.frames;
    const bool ofTheFarEnd = frame.whose != Whose::person && frame.whose != Whose::room;
    if (!frame.voiced || ofTheFarEnd)
        return;
    ++now.voiced;
    now.energy += frame.meanSquareA;
}

std::optional<float> OtherVoices::levelDbfsA() const
{
    Second all;
    for (const Second& second : m_seconds) {
        all.frames += second.frames;
        all.voiced += second.voiced;
        all.energy += second.energy;
    }
    if (all.voiced < kLeastVoiced || all.voiced * kLeastShare < all.frames || all.energy <= 0)
        return std::nullopt;
    return static_cast<float>(10 * std::log10(all.energy / all.voiced));
}

} // namespace vh
