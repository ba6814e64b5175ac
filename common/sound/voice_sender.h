#pragma once
// The leader's sound on its way out: microphone samples in any pieces (48 kHz mono, full scale 1.0), the bell and her
// recording laid over it, limited, coded, one frame of 20 ms at a time. The sample count goes on through mute; muted
// nothing at all is sent. A mute fades within 5 ms and ends in one frame of pure silence, by which a home tells a mute
// from a loss. The decoded sound lies one look-ahead of the codec (6.5 ms) behind the count.
// Threads: push and passOver on one, the recording's feeder on one, all else on any. push allocates and waits for
// nothing beyond what the sink does. Construction throws std::runtime_error when Opus cannot start.
#include "common/sound/bell.h"
#include "common/sound/opus_codec.h"
#include "common/sound/recording.h"
#include "common/wire/binary.h"

#include <algorithm>
#include <atomic>

namespace vh
{

class VoiceSender
{
public:
    /// `stream`: another number after every restart of the sender.
    explicit VoiceSender(std::uint32_t stream, const VoiceCoding& coding = {});

    /// Calls sink(const wire::SoundHead&, std::span<const std::uint8_t>) for each frame that is full; the bytes live
    /// until it returns.
    template <class Sink>
    void push(std::span<const float> samples, Sink&& sink)
    {
        while (!samples.empty()) {
            const auto room = std::min(samples.size(), kSoundFrame - m_filled);
            fill(samples.first(room));
            samples = samples.subspan(room);
            if (m_filled < kSoundFrame)
                continue;
            const wire::SoundHead head{m_stream, m_frameStart};
            if (const auto packet = finishFrame(); !packet.empty())
                sink(head, packet);
        }
    }
    /// Time that went by without a microphone (a device was changed): counted, not sent.
    void passOver(std::uint64_t samples);

    void setMuted(bool muted) { m_muted.store(muted, std::memory_order_relaxed); }
    [[nodiscard]] bool muted() const { return m_muted.load(std::memory_order_relaxed); }
    /// In `yours` turns the people speak: no bell, no recording. A recording waits; a bell is not struck later.
    void setYours(bool yours) { m_yours.store(yours, std::memory_order_relaxed); }
    void strikeBell() { m_strikes.fetch_add(1, std::memory_order_relaxed); }
    [[nodiscard]] Recording& recording() { return m_recording; }

    [[nodiscard]] std::uint32_t stream() const { return m_stream; }
    /// The count of the next sample. Thread: push's.
    [[nodiscard]] std::uint64_t nextSample() const { return m_frameStart + m_filled; }

private:
    void fill(std::span<const float> samples);
    void addExtras(std::span<float> samples);
    /// The frame's packet, or nothing when it is not to be sent.
    std::span<const std::uint8_t> finishFrame();

    VoiceEncoder m_encoder;
    Bell m_bell;
    Recording m_recording;
    std::uint32_t m_stream;
    std::uint64_t m_frameStart = 0;
    std::array<float, kSoundFrame> m_frame{};
    std::size_t m_filled = 0;
    float m_voiceGain = 0;   ///< fades to 0 when muted
    float m_extrasGain = 1;  ///< fades to 0 in `yours` turns
    bool m_quietSent = true; ///< one whole silent frame has ended the last stretch of sound
    std::uint32_t m_strikesSeen = 0;

    std::atomic<bool> m_muted{false};
    std::atomic<bool> m_yours{false};
    std::atomic<std::uint32_t> m_strikes{0};
};

} // namespace vh
