// A sound file in place of a microphone: the same samples, at the pace at which a microphone would bring them, or as
// far as somebody moves the clock.
#include "app/sound/sound_source.h"
#include "common/signal/resampler.h"

#include <sndfile.h>

#include <atomic>
#include <condition_variable>
#include <mutex>
#include <stop_token>
#include <thread>
#include <vector>

namespace vh::sound
{

namespace
{

struct FileCloser {
    void operator()(SNDFILE* file) const { sf_close(file); }
};
using File = std::unique_ptr<SNDFILE, FileCloser>;

constexpr std::chrono::milliseconds kChunk{10};

class FileSource final : public SoundSource
{
public:
    FileSource(File file, const SF_INFO& info, Pace pace)
        : m_file(std::move(file)), m_rateHz(info.samplerate), m_channels(info.channels), m_pace(pace),
          m_frames(static_cast<std::size_t>(framesUpTo(kChunk) + 1) * static_cast<std::size_t>(info.channels)),
          m_mono(static_cast<std::size_t>(framesUpTo(kChunk) + 1))
    {
    }
    ~FileSource() override { halt(); }

    [[nodiscard]] int sampleRateHz() const override { return m_rateHz; }
    [[nodiscard]] SourceHealth health() const override { return m_health.load(); }
    void stop() override { halt(); }

    void start(SampleSink& sink) override
    {
        halt();
        m_sink = &sink;
        if (m_pace == Pace::realTime)
            m_thread = std::jthread([this](const std::stop_token& stop) { runAtPace(stop); });
    }

    void advance(std::chrono::milliseconds by) override
    {
        if (m_pace != Pace::byHand || !m_sink)
            return;
        for (const auto until = m_heard + by; m_heard < until && m_health == SourceHealth::good;)
            deliver(std::min(kChunk, until - m_heard));
    }

private:
    /// Frames from the file's beginning to a moment: counting from the beginning, no rate drifts.
    [[nodiscard]] sf_count_t framesUpTo(std::chrono::milliseconds at) const { return at.count() * m_rateHz / 1000; }

    void deliver(std::chrono::milliseconds span)
    {
        const sf_count_t wanted = framesUpTo(m_heard + span) - framesUpTo(m_heard);
        const sf_count_t got = sf_readf_float(m_file.get(), m_frames.data(), wanted);
        m_heard += span;
        for (sf_count_t frame = 0; frame < got; ++frame) {
            float sum = 0;
            for (int channel = 0; channel < m_channels; ++channel)
                sum += m_frames[static_cast<std::size_t>(frame * m_channels + channel)];
            m_mono[static_cast<std::size_t>(frame)] = sum / static_cast<float>(m_channels);
        }
        m_sink->take(std::span<const float>(m_mono).first(static_cast<std::size_t>(got)));
        if (got < wanted)
            m_health = SourceHealth::ended;
    }

    void runAtPace(const std::stop_token& stop)
    {
        const auto began = std::chrono::steady_clock::now() - m_heard;
        std::mutex mutex; // this thread's own, only to sleep until the time has come or a stop is asked for
        std::condition_variable_any asked;
        std::unique_lock lock(mutex);
        while (m_health == SourceHealth::good) {
            // A microphone delivers what it has heard: a chunk comes when its time is over.
            asked.wait_until(lock, stop, began + m_heard + kChunk, [] { return false; });
            if (stop.stop_requested())
                return;
            deliver(kChunk);
        }
    }

    void halt()
    {
        if (m_thread.joinable()) {
            m_thread.request_stop();
            m_thread.join();
        }
        m_sink = nullptr;
    }

    File m_file;
    int m_rateHz;
    int m_channels;
    Pace m_pace;
    std::vector<float> m_frames;
    std::vector<float> m_mono;
    SampleSink* m_sink = nullptr;
    std::chrono::milliseconds m_heard{0};
    std::atomic<SourceHealth> m_health{SourceHealth::good};
    std::jthread m_thread;
};

} // namespace

Result<std::unique_ptr<SoundSource>> openFile(const QString& path, Pace pace)
{
    SF_INFO info{};
    File file(sf_open(path.toLocal8Bit().constData(), SFM_READ, &info));
    if (!file)
        return fail("sound-file-unreadable", "This file could not be read as sound. A WAV file would do.",
                    path.toStdString());
    if (info.frames <= 0)
        return fail("sound-file-empty", "There is no sound in this file.", path.toStdString());
    if (info.samplerate < Resampler::kLowestRateHz || info.samplerate > Resampler::kHighestRateHz)
        return fail("sound-file-rate", "This file has an unusual sampling rate; 48 kHz would do.", path.toStdString());
    return std::make_unique<FileSource>(std::move(file), info, pace);
}

} // namespace vh::sound
