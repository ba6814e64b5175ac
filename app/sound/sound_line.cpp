#include "app/sound/sound_line.h"

#include <algorithm>
#include <utility>

namespace vh::sound
{

namespace
{

std::size_t ringSamples(int rateHz)
{
    return static_cast<std::size_t>(rateHz); // one second: a worker that far behind is stuck
}

std::size_t samplesHeldBack(const SoundLine::Attached& attached)
{
    return attached.farEnd ? static_cast<std::size_t>(attached.farEnd->microphoneDelay().count()) * 48 : 0;
}

} // namespace

SoundLine::SoundLine(int sampleRateHz, Work work, Attached attached)
    : m_sampleRateHz(sampleRateHz), m_work(work), m_attached(std::move(attached)), m_ring(ringSamples(sampleRateHz)),
      m_resampler(sampleRateHz), m_piece(kPiece), m_far(kPiece), m_late(kPiece), m_held(samplesHeldBack(m_attached))
{
    if (m_attached.farEnd)
        m_attached.farEnd->begin();
    if (m_attached.path)
        m_ear.usePath(*m_attached.path);
    for (const auto& listener : m_attached.listeners)
        listener->opened();
    if (m_work == Work::onWorker)
        m_worker = std::thread([this] { run(); });
}

SoundLine::~SoundLine()
{
    finish();
}

void SoundLine::finish()
{
    if (!m_worker.joinable())
        return;
    m_stop = true;
    m_wake.fetch_add(1);
    m_wake.notify_one();
    m_worker.join();
}

void SoundLine::take(std::span<const float> samples) noexcept
{
    m_taken.fetch_add(samples.size(), std::memory_order_relaxed);
    if (m_work == Work::atOnce) {
        measure(samples);
        return;
    }
    m_ring.write(samples);
    m_wake.fetch_add(1, std::memory_order_release);
    m_wake.notify_one();
}

void SoundLine::measure(std::span<const float> samples) noexcept
{
    m_resampler.push(samples, [this](std::span<const float> at48k) {
        while (!at48k.empty()) {
            const auto piece = at48k.first(std::min(at48k.size(), kPiece));
            hear(piece);
            at48k = at48k.subspan(piece.size());
        }
    });
}

void SoundLine::hear(std::span<const float> at48k) noexcept
{
    const auto far = std::span(m_far).first(at48k.size()); // zeros, where there is no far end
    if (m_attached.farEnd)
        m_attached.farEnd->read(far);
    const auto microphone = heldBack(at48k);
    m_ear.push(microphone, far, [this](const VoiceFrame& frame) {
        m_frames.push(frame);
        const auto path = m_ear.path();
        m_snapshot.store({frame, ++m_frameCount, path.has_value(), path.value_or(EchoPath{})});
    });
    for (const auto& listener : m_attached.listeners)
        listener->hear(microphone, far);
}

std::span<const float> SoundLine::heldBack(std::span<const float> samples) noexcept
{
    if (m_held.empty())
        return samples;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        m_late[i] = std::exchange(m_held[m_heldAt], samples[i]);
        m_heldAt = (m_heldAt + 1) % m_held.size();
    }
    return std::span(m_late).first(samples.size());
}

void SoundLine::run()
{
    while (true) {
        const int seen = m_wake.load(std::memory_order_acquire);
        while (const std::size_t got = m_ring.read(m_piece))
            measure(std::span<const float>(m_piece).first(got));
        if (m_stop)
            return;
        m_wake.wait(seen, std::memory_order_acquire);
    }
}

std::uint64_t SoundLine::droppedFrames() const
{
    const auto samplesAFrame = static_cast<std::uint64_t>(m_sampleRateHz * VoiceFrame::kMilliseconds / 1000);
    return m_frames.dropped() + m_ring.lost() / samplesAFrame;
}

} // namespace vh::sound
