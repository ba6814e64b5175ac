#pragma once
// What is to be played: the voices of a class, mixed, and now and then a clip of the program's own (the mic check's
// recorded voice). render() and renderedUpTo() run on the output's thread, which allocates, locks and logs nothing.
#include "common/sound/voice_mix.h"

#include <atomic>
#include <memory>
#include <span>
#include <vector>

namespace vh::sound
{

class VoiceFeed
{
public:
    VoiceFeed() = default;
    VoiceFeed(const VoiceFeed&) = delete;
    VoiceFeed& operator=(const VoiceFeed&) = delete;
    virtual ~VoiceFeed() = default;

    /// 48 kHz mono; all of it is filled.
    virtual void render(std::span<float> into) noexcept = 0;
    /// How far the leader's stream has come with what was rendered.
    [[nodiscard]] virtual HeardUpTo renderedUpTo() const noexcept = 0;
};

/// VoiceMix, and a clip over it. The mix outlives it.
class MixFeed final : public VoiceFeed
{
public:
    explicit MixFeed(VoiceMix& mix) : m_mix(mix) {}

    /// GUI thread: plays this once (48 kHz mono), in place of any clip that still plays. Empty: nothing any more.
    void playClip(std::vector<float> clip);
    /// Any thread: there is some of it left.
    [[nodiscard]] bool clipPlays() const { return m_doneClip.load(std::memory_order_acquire) != m_lastClip.load(); }

    void render(std::span<float> into) noexcept override;
    [[nodiscard]] HeardUpTo renderedUpTo() const noexcept override { return m_mix.leader().heardUpTo(); }

private:
    struct Clip {
        std::vector<float> samples;
        std::uint32_t number = 0;
    };

    VoiceMix& m_mix;
    std::vector<std::unique_ptr<const Clip>> m_clips; ///< GUI thread's: kept for whoever still plays them
    std::atomic<const Clip*> m_clip{nullptr};
    std::atomic<std::uint32_t> m_lastClip{0};
    std::atomic<std::uint32_t> m_doneClip{0};
    const Clip* m_playing = nullptr; ///< the output's thread's
    std::size_t m_at = 0;
};

} // namespace vh::sound
