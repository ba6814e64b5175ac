#include "app/sound/device_source.h"
#include "app/sound/audio_thread.h"
#include "app/sound/to_mono.h"

#include <QAudioSource>
#include <QIODevice>

#include <array>
#include <atomic>

namespace vh::sound
{

namespace
{

constexpr int kWantedRateHz = 48'000;
constexpr int kChunkMs = 20; // asked for; the system may choose otherwise

/// Qt writes what it captured into this, on the capture thread.
class Intake final : public QIODevice
{
public:
    Intake(const QAudioFormat& format, SampleSink& sink) : m_format(format), m_sink(sink)
    {
        open(QIODevice::WriteOnly | QIODevice::Unbuffered);
    }
    [[nodiscard]] bool isSequential() const override { return true; }

protected:
    qint64 readData(char* /*data*/, qint64 /*most*/) override { return -1; }
    qint64 writeData(const char* data, qint64 count) override
    {
        auto rest = std::as_bytes(std::span(data, static_cast<std::size_t>(count)));
        const auto frameBytes = static_cast<std::size_t>(m_format.bytesPerFrame());
        while (rest.size() >= frameBytes) {
            const std::size_t frames = toMono(rest, m_format, m_mono);
            if (frames == 0)
                break;
            m_sink.take(std::span<const float>(m_mono).first(frames));
            rest = rest.subspan(frames * frameBytes);
        }
        return count;
    }

private:
    QAudioFormat m_format;
    SampleSink& m_sink;
    std::array<float, 2048> m_mono{};
};

class DeviceSource final : public SoundSource
{
public:
    DeviceSource(QAudioDevice device, const QAudioFormat& format) : m_device(std::move(device)), m_format(format) {}
    ~DeviceSource() override { halt(); }

    [[nodiscard]] int sampleRateHz() const override { return m_format.sampleRate(); }
    [[nodiscard]] SourceHealth health() const override { return m_health.load(); }
    void stop() override { halt(); }

    void start(SampleSink& sink) override
    {
        halt();
        m_health = SourceHealth::good;
        m_thread.begin([this, &sink] { open(sink); });
    }

private:
    void open(SampleSink& sink) // capture thread
    {
        m_intake = std::make_unique<Intake>(m_format, sink);
        m_audio = std::make_unique<QAudioSource>(m_device, m_format);
        m_audio->setBufferSize(m_format.bytesForDuration(kChunkMs * 1000));
        QObject::connect(m_audio.get(), &QAudioSource::stateChanged, m_thread.home(), [this] { noteState(); });
        m_audio->start(m_intake.get());
        noteState();
    }

    void noteState() // capture thread
    {
        if (hasFailed(*m_audio))
            m_health = SourceHealth::failed;
    }

    void halt()
    {
        m_thread.end([this] {
            m_audio->disconnect(m_thread.home());
            m_audio->stop();
            m_audio.reset(); // this is what gives the microphone back
            m_intake.reset();
        });
    }

    QAudioDevice m_device;
    QAudioFormat m_format;
    std::atomic<SourceHealth> m_health{SourceHealth::good};
    AudioThread m_thread{QStringLiteral("capture")};
    std::unique_ptr<Intake> m_intake;
    std::unique_ptr<QAudioSource> m_audio;
};

} // namespace

std::unique_ptr<SoundSource> makeDeviceSource(const QAudioDevice& device)
{
    const auto format = usableFormat(device, kWantedRateHz);
    return format ? std::make_unique<DeviceSource>(device, *format) : nullptr;
}

} // namespace vh::sound
