// A sound file in place of a microphone: the same samples, at the pace at which a microphone would bring them, or as
// far as somebody moves the clock.
#include "app/sound/sound_file.h"
#include "app/sound/sound_source.h"

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

constexpr std::chrono::milliseconds kChunk{10};

class FileSource final : public SoundSource
{
public:
    FileSource(SoundFile file, Pace pace)
        : m_file(std::move(file)), m_pace(pace), m_samples(static_cast<std::size_t>(samplesUpTo(kChunk) + 1))
    {
    }
    ~FileSource() override { halt(); }

    [[nodiscard]] int sampleRateHz() const override { return m_file.rateHz(); }
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
    /// Samples from the file's beginning to a moment: counting from the beginning, no rate drifts.
    [[nodiscard]] std::int64_t samplesUpTo(std::chrono::milliseconds at) const
    {
        return at.count() * m_file.rateHz() / 1000;
    }

    void deliver(std::chrono::milliseconds span)
    {
        const auto wanted = static_cast<std::size_t>(samplesUpTo(m_heard + span) - samplesUpTo(m_heard));
        const std::size_t got = m_file.read(std::span(m_samples).first(wanted));
        m_heard += span;
        m_sink->take(std::span<const float>(m_samples).first(got));
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

    SoundFile m_file;
    Pace m_pace;
    std::vector<float> m_samples;
    SampleSink* m_sink = nullptr;
    std::chrono::milliseconds m_heard{0};
    std::atomic<SourceHealth> m_health{SourceHealth::good};
    std::jthread m_thread;
};

} // namespace

Result<std::unique_ptr<SoundSource>> openFile(const QString& path, Pace pace)
{
    auto file = SoundFile::open(path);
    if (!file)
        return tl::unexpected(file.error());
    return std::make_unique<FileSource>(std::move(*file), pace);
}

} // namespace vh::sound
