#pragma once
// From one source's samples to voice frames: ring, resampler to 48 kHz, meter. take() runs on the source's thread and
// allocates, locks and logs nothing. With Work::onWorker a thread of the line's own does the measuring; with
// Work::atOnce it is done inside take(), so that a run by hand gives the same frames every time.
// drain() and snapshot(): one other thread. The source is stopped before the line is destroyed.
#include "app/sound/frame_queue.h"
#include "app/sound/snapshot_box.h"
#include "app/sound/sound_source.h"
#include "common/signal/meter.h"
#include "common/signal/resampler.h"
#include "common/signal/spsc_ring.h"

#include <atomic>
#include <thread>
#include <vector>

namespace vh::sound
{

class SoundLine final : public SampleSink
{
public:
    enum class Work { onWorker, atOnce };

    SoundLine(int sampleRateHz, Work work);
    ~SoundLine() override;

    void take(std::span<const float> samples) noexcept override;
    /// After the source has stopped: measures what is still in the ring, then ends the worker. drain() still works.
    void finish();

    template <class Sink>
    void drain(Sink&& sink)
    {
        m_frames.drain(sink);
    }
    [[nodiscard]] MeterSnapshot snapshot() const { return m_snapshot.load(); }
    /// Samples that have come in, at the source's rate. Any thread.
    [[nodiscard]] std::uint64_t samplesTaken() const { return m_taken.load(std::memory_order_relaxed); }
    /// What was not kept because the worker or the reader was far behind: whole frames, and samples as frames.
    [[nodiscard]] std::uint64_t droppedFrames() const;

private:
    void measure(std::span<const float> samples) noexcept;
    void run();

    int m_sampleRateHz;
    Work m_work;
    SpscRing m_ring;
    Resampler m_resampler;
    Meter m_meter;
    std::uint64_t m_frameCount = 0;
    FrameQueue m_frames;
    SnapshotBox m_snapshot;
    std::atomic<std::uint64_t> m_taken{0};

    std::vector<float> m_piece; ///< the worker's
    std::atomic<int> m_wake{0}; ///< bumped for every piece of sound, and to stop
    std::atomic<bool> m_stop{false};
    std::thread m_worker;
};

} // namespace vh::sound
