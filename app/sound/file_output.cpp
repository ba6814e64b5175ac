// A sound file, or nowhere, in place of a loudspeaker: for runs without a device.
#include "app/sound/sound_output.h"

#include <sndfile.h>

#include <array>
#include <condition_variable>
#include <mutex>
#include <stop_token>
#include <thread>

namespace vh::sound
{

namespace
{

struct FileCloser {
    void operator()(SNDFILE* file) const { sf_close(file); }
};
using File = std::unique_ptr<SNDFILE, FileCloser>;

constexpr std::chrono::milliseconds kChunk{10};
constexpr std::size_t kChunkSamples = kPlayedRateHz / 100;

class FileOutput final : public SoundOutput
{
public:
    FileOutput(File file, Pace pace) : m_file(std::move(file)), m_pace(pace) {}
    ~FileOutput() override { halt(); }

    [[nodiscard]] SourceHealth health() const override { return SourceHealth::good; }
    void stop() override { halt(); }

    void start(SampleFeed& feed) override
    {
        halt();
        m_feed = &feed;
        if (m_pace == Pace::realTime)
            m_thread = std::jthread([this](const std::stop_token& stop) { runAtPace(stop); });
    }

    void advance(std::chrono::milliseconds by) override
    {
        if (m_pace != Pace::byHand || !m_feed)
            return;
        for (m_owed += by; m_owed >= kChunk; m_owed -= kChunk)
            play();
    }

private:
    void play()
    {
        m_feed->render(m_piece, {});
        if (m_file)
            sf_writef_float(m_file.get(), m_piece.data(), kChunkSamples);
    }

    void runAtPace(const std::stop_token& stop)
    {
        std::mutex mutex; // this thread's own, only to sleep until the time has come or a stop is asked for
        std::condition_variable_any asked;
        std::unique_lock lock(mutex);
        for (auto next = std::chrono::steady_clock::now(); !stop.stop_requested(); next += kChunk) {
            asked.wait_until(lock, stop, next, [] { return false; });
            play();
        }
    }

    void halt()
    {
        if (m_thread.joinable()) {
            m_thread.request_stop();
            m_thread.join();
        }
        m_feed = nullptr;
    }

    File m_file;
    Pace m_pace;
    std::array<float, kChunkSamples> m_piece{};
    std::chrono::milliseconds m_owed{0};
    SampleFeed* m_feed = nullptr;
    std::jthread m_thread;
};

} // namespace

Result<std::unique_ptr<SoundOutput>> openOutputFile(const QString& path, Pace pace)
{
    File file;
    if (!path.isEmpty()) {
        SF_INFO info{};
        info.samplerate = kPlayedRateHz;
        info.channels = 1;
        info.format = SF_FORMAT_WAV | SF_FORMAT_FLOAT;
        file.reset(sf_open(path.toLocal8Bit().constData(), SFM_WRITE, &info));
        if (!file)
            return fail("sound-file-unwritable", "This file could not be written.", path.toStdString());
    }
    return std::make_unique<FileOutput>(std::move(file), pace);
}

} // namespace vh::sound
