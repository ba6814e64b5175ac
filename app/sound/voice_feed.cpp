#include "app/sound/voice_feed.h"

#include "common/sound/soft_limiter.h"

#include <algorithm>
#include <utility>

namespace vh::sound
{

void MixFeed::playClip(std::vector<float> clip)
{
    if (!clipPlays() && m_clips.size() > 1) // the output has been through the last one: nobody looks at those before
        m_clips.erase(m_clips.begin(), m_clips.end() - 1);
    const std::uint32_t number = m_lastClip.load() + 1;
    m_clips.push_back(std::make_unique<const Clip>(Clip{std::move(clip), number}));
    m_lastClip.store(number);
    m_clip.store(m_clips.back().get(), std::memory_order_release);
}

void MixFeed::render(std::span<float> into) noexcept
{
    m_mix.render(into);
    const Clip* const clip = m_clip.load(std::memory_order_acquire);
    if (!clip || m_doneClip.load(std::memory_order_relaxed) == clip->number)
        return;
    if (clip != m_playing) {
        m_playing = clip;
        m_at = 0;
    }
    const std::size_t count = std::min(into.size(), clip->samples.size() - m_at);
    for (std::size_t i = 0; i < count; ++i)
        into[i] = softLimited(into[i] + clip->samples[m_at + i]);
    m_at += count;
    if (m_at == clip->samples.size())
        m_doneClip.store(clip->number, std::memory_order_release);
}

} // namespace vh::sound
