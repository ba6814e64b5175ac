#include "app/sound/sound_line.h"

namespace vh::sound
{

namespace
{

constexpr std::size_t kPiece = 1024;

std::size_t ringSamples(int rateHz)
{
    return static_cast<std::size_t>(rateHz); // one second: a worker that far behind is stuck
}

} // namespace

SoundLine::SoundLine(int sampleRateHz, Work work)
    : m_sampleRateHz(sampleRateHz), m_work(work), m_ring(ringSamples(sampleRateHz)), m_resampler(sampleRateHz),
      m_piece(kPiece)
{
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
        m_meter.push(at48k, [this](const VoiceFrame& frame) {
            m_frames.push(frame);
            m_snapshot.store({frame, ++m_frameCount});
        });
    });
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
