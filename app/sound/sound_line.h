#pragma once
// From one source's samples to voice frames: ring, resampler to 48 kHz, and the meter that is told what the loudspeaker
// plays. take() runs on the source's thread and allocates, locks and logs nothing. With Work::onWorker a thread of the
// line's own does the measuring; with Work::atOnce it is done inside take(), so that a run by hand gives the same
// frames every time. Listeners hear the same samples on the measuring thread.
// drain() and snapshot(): one other thread. The source is stopped before the line is destroyed.
#include "app/sound/far_end.h"
#include "app/sound/frame_queue.h"
#include "app/sound/line_listener.h"
#include "app/sound/snapshot_box.h"
#include "app/sound/sound_source.h"
#include "common/echo/clean_ear.h"
#include "common/signal/resampler.h"
#include "common/signal/spsc_ring.h"

#include <atomic>
#include <memory>
#include <optional>
#include <thread>
#include <vector>

namespace vh::sound
{

class SoundLine final : public SampleSink
{
public:
    enum class Work { onWorker, atOnce };
    struct Attached {
        std::shared_ptr<FarEnd> farEnd; ///< null: nothing is played
        std::optional<EchoPath> path;   ///< as learnt before
        std::vector<std::shared_ptr<LineListener>> listeners;
    };

    SoundLine(int sampleRateHz, Work work) : SoundLine(sampleRateHz, work, Attached{}) {}
    SoundLine(int sampleRateHz, Work work, Attached attached);
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
    static constexpr std::size_t kPiece = 1024;

    void measure(std::span<const float> samples) noexcept;
    void hear(std::span<const float> at48k) noexcept;
    std::span<const float> heldBack(std::span<const float> samples) noexcept;
    void run();

    int m_sampleRateHz;
    Work m_work;
    Attached m_attached;
    SpscRing m_ring;
    Resampler m_resampler;
    CleanEar m_ear;
    std::uint64_t m_frameCount = 0;
    FrameQueue m_frames;
    SnapshotBox m_snapshot;
    std::atomic<std::uint64_t> m_taken{0};

    std::vector<float> m_piece; ///< the measuring thread's, as the next four
    std::vector<float> m_far;
    std::vector<float> m_late;
    std::vector<float> m_held; ///< the last samples of the microphone, where it is held back
    std::size_t m_heldAt = 0;
    std::atomic<int> m_wake{0}; ///< bumped for every piece of sound, and to stop
    std::atomic<bool> m_stop{false};
    std::thread m_worker;
};

} // namespace vh::sound
