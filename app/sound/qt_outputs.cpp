// Qt Multimedia's loudspeakers: each played to from a thread of its own, so that a busy screen leaves no gaps.
#include "app/sound/audio_thread.h"
#include "app/sound/outlet.h"

#include <QMediaDevices>

#include <atomic>

namespace vh::sound
{

namespace
{

// Under about 100 ms Qt's sink on PulseAudio can stay silent, without an error.
constexpr int kBufferMs = 100;

class DeviceOutput final : public SoundOutput
{
public:
    DeviceOutput(QAudioDevice device, const QAudioFormat& format) : m_device(std::move(device)), m_format(format) {}
    ~DeviceOutput() override { halt(); }

    [[nodiscard]] SourceHealth health() const override { return m_health.load(); }
    void stop() override { halt(); }

    void start(SampleFeed& feed) override
    {
        halt();
        m_health = SourceHealth::good;
        m_thread.begin([this, &feed] { open(feed); });
    }

private:
    void open(SampleFeed& feed) // playback thread
    {
        m_outlet = std::make_unique<Outlet>(m_format, feed);
        m_audio = std::make_unique<QAudioSink>(m_device, m_format);
        m_audio->setBufferSize(m_format.bytesForDuration(kBufferMs * 1000));
        QObject::connect(m_audio.get(), &QAudioSink::stateChanged, m_thread.home(), [this] { noteState(); });
        m_outlet->setSink(m_audio.get());
        m_audio->start(m_outlet.get());
        noteState();
    }

    void noteState() // playback thread
    {
        if (hasFailed(*m_audio))
            m_health = SourceHealth::failed;
    }

    void halt()
    {
        m_thread.end([this] {
            m_audio->disconnect(m_thread.home());
            m_audio->stop();
            m_audio.reset(); // this is what gives the loudspeaker back
            m_outlet.reset();
        });
    }

    QAudioDevice m_device;
    QAudioFormat m_format;
    std::atomic<SourceHealth> m_health{SourceHealth::good};
    AudioThread m_thread{QStringLiteral("playback")};
    std::unique_ptr<Outlet> m_outlet;
    std::unique_ptr<QAudioSink> m_audio;
};

/// Null when the device takes no format that could be served.
std::unique_ptr<SoundOutput> makeDeviceOutput(const QAudioDevice& device)
{
    const auto format = usableFormat(device, kPlayedRateHz);
    return format ? std::make_unique<DeviceOutput>(device, *format) : nullptr;
}

class QtOutputs final : public OutputBackend
{
public:
    QVector<DeviceInfo> devices() override
    {
        // QAudioDevice::isDefault() is not to be trusted in Qt 6.4: the ids are compared.
        const QByteArray standard = QMediaDevices::defaultAudioOutput().id();
        QVector<DeviceInfo> all;
        for (const QAudioDevice& device : QMediaDevices::audioOutputs())
            all.push_back({device.id(), device.description(), device.id() == standard});
        return all;
    }

    std::unique_ptr<SoundOutput> openDevice(const QByteArray& id) override
    {
        for (const QAudioDevice& device : QMediaDevices::audioOutputs()) {
            if (device.id() == id)
                return makeDeviceOutput(device);
        }
        return nullptr;
    }
};

class NullOutputs final : public OutputBackend
{
public:
    QVector<DeviceInfo> devices() override { return {}; }
    std::unique_ptr<SoundOutput> openDevice(const QByteArray& /*id*/) override { return nullptr; }
};

} // namespace

std::unique_ptr<OutputBackend> makeQtOutputs()
{
    return std::make_unique<QtOutputs>();
}

std::unique_ptr<OutputBackend> makeNullOutputs()
{
    return std::make_unique<NullOutputs>();
}

} // namespace vh::sound
