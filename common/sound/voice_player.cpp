#include "common/sound/voice_player.h"

namespace vh
{

void VoicePlayer::arrive(const wire::SoundHead& head, std::span<const std::uint8_t> payload, Instant now)
{
    if (VoiceDecoder::samplesIn(payload) != kSoundFrame || !m_queue.put(head, payload))
        m_refused.fetch_add(1, std::memory_order_relaxed);
    else
        m_lastArrival.store(now.time_since_epoch().count(), std::memory_order_relaxed);
}

bool VoicePlayer::render(std::span<float> out)
{
    for (const SoundPacket* packet = m_queue.front(); packet; packet = m_queue.front()) {
        m_playout.put(*packet);
        m_queue.pop();
    }
    const bool plays = !m_playout.idle();
    m_playout.render(out);
    if (plays)
        publish();
    return plays;
}

void VoicePlayer::publish()
{
    const std::uint32_t turn = m_turn.load(std::memory_order_relaxed);
    m_turn.store(turn + 1, std::memory_order_relaxed);
    m_heardStream.store(m_playout.stream(), std::memory_order_release);
    m_heardSample.store(m_playout.heardUpTo(), std::memory_order_release);
    m_turn.store(turn + 2, std::memory_order_release);

    const Playout::Counts& counts = m_playout.counts();
    const std::uint64_t values[] = {counts.interruptions,    counts.waitedSamples, counts.lostSamples,
                                    counts.concealedSamples, counts.lateFrames,    counts.skips};
    for (std::size_t i = 0; i < m_counts.size(); ++i)
        m_counts[i].store(values[i], std::memory_order_relaxed);
    m_gauges[0].store(static_cast<float>(m_playout.held()), std::memory_order_relaxed);
    m_gauges[1].store(static_cast<float>(m_playout.allowance()), std::memory_order_relaxed);
    m_gauges[2].store(static_cast<float>(m_playout.speed()), std::memory_order_relaxed);
}

HeardUpTo VoicePlayer::heardUpTo() const
{
    for (;;) {
        const std::uint32_t turn = m_turn.load(std::memory_order_acquire);
        const HeardUpTo heard{m_heardStream.load(std::memory_order_acquire),
                              m_heardSample.load(std::memory_order_acquire)};
        if (turn % 2 == 0 && m_turn.load(std::memory_order_relaxed) == turn)
            return heard;
    }
}

SoundStats VoicePlayer::stats() const
{
    const auto count = [this](std::size_t i) { return m_counts[i].load(std::memory_order_relaxed); };
    const auto seconds = [&](std::size_t i) { return static_cast<double>(count(i)) / kSoundRateHz; };
    const auto gauge = [this](std::size_t i) {
        return static_cast<double>(m_gauges[i].load(std::memory_order_relaxed));
    };
    return {.interruptions = count(0),
            .waitedSeconds = seconds(1),
            .lostSeconds = seconds(2),
            .concealedSeconds = seconds(3),
            .lateFrames = count(4),
            .refusedFrames = m_refused.load(std::memory_order_relaxed),
            .skips = count(5),
            .heldMs = gauge(0) / 48,
            .wantedMs = gauge(1) / 48,
            .speedPpm = gauge(2) * 1e6};
}

} // namespace vh
