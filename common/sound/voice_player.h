#pragma once
// One stream of carried sound on its way to a loudspeaker. arrive() is called with each sound frame as it comes, on the
// network's thread; render() on the playback thread, for as many samples as it likes: it takes no lock, allocates and
// logs nothing, and always fills what it is given. heardUpTo(), stats() and lastArrival(): any thread.
// What is done about late, missing and hurried frames: playout.h. A frame of another stream starts anew. Construction
// throws std::runtime_error when libopus or libsamplerate cannot start.
#include "common/sound/playout.h"

namespace vh
{

/// How far somebody has heard: the count of the stream after the last sample handed out. Stream 0 and sample 0: nothing
/// was heard yet. Within one stream it never goes back.
struct HeardUpTo {
    std::uint32_t stream = 0;
    std::uint64_t sample = 0;
    friend bool operator==(const HeardUpTo&, const HeardUpTo&) = default;
};

struct SoundStats {
    std::uint64_t interruptions = 0;
    double waitedSeconds = 0; ///< in interruptions
    double lostSeconds = 0;   ///< of the leader's sound, never heard
    double concealedSeconds = 0;
    std::uint64_t lateFrames = 0;
    std::uint64_t refusedFrames = 0; ///< not a frame of ours, or nobody was playing
    std::uint64_t skips = 0;
    double heldMs = 0;   ///< how long sound is held back here beyond the line's fastest way, now
    double wantedMs = 0; ///< how long this line asks for
    double speedPpm = 0; ///< how much faster than its own clock the loudspeaker is fed
};

class VoicePlayer
{
public:
    VoicePlayer() = default;

    /// Network's thread. Anything may come: what is not one Opus frame of 20 ms is counted and dropped.
    void arrive(const wire::SoundHead& head, std::span<const std::uint8_t> payload, Instant now);

    /// Playback thread. False: there was nothing to play, `out` is zeros, and it cost nothing.
    bool render(std::span<float> out);

    [[nodiscard]] HeardUpTo heardUpTo() const;
    [[nodiscard]] SoundStats stats() const;
    /// When the last frame came; the epoch if none did.
    [[nodiscard]] Instant lastArrival() const { return Instant{Millis{m_lastArrival.load(std::memory_order_relaxed)}}; }

private:
    void publish();

    PacketQueue m_queue;
    Playout m_playout;

    // Written under an odd m_turn, so that a reader never takes the stream of one moment and the sample of another.
    std::atomic<std::uint32_t> m_turn{0};
    std::atomic<std::uint32_t> m_heardStream{0};
    std::atomic<std::uint64_t> m_heardSample{0};

    std::atomic<std::int64_t> m_lastArrival{0};
    std::atomic<std::uint64_t> m_refused{0};
    std::array<std::atomic<std::uint64_t>, 6> m_counts{};
    std::array<std::atomic<float>, 3> m_gauges{};
};

} // namespace vh
