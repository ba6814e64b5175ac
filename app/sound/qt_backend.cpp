// Qt Multimedia's microphones.
#include "app/sound/device_source.h"
#include "app/sound/pulse_volume.h"

#include <QMediaDevices>

namespace vh::sound
{

namespace
{

class QtBackend final : public SoundBackend
{
public:
    QVector<DeviceInfo> devices() override
    {
        // QAudioDevice::isDefault() is false for every input in Qt 6.4: the ids are compared.
        const QByteArray standard = QMediaDevices::defaultAudioInput().id();
        QVector<DeviceInfo> all;
        for (const QAudioDevice& device : QMediaDevices::audioInputs())
            all.push_back({device.id(), device.description(), device.id() == standard});
        return all;
    }

    std::unique_ptr<SoundSource> openDevice(const QByteArray& id) override
    {
        for (const QAudioDevice& device : QMediaDevices::audioInputs()) {
            if (device.id() == id)
                return makeDeviceSource(device);
        }
        return nullptr;
    }

    std::optional<float> inputVolume(const QByteArray& id) override { return m_volume.of(id); }

private:
    PulseVolume m_volume;
};

} // namespace

std::unique_ptr<SoundBackend> makeQtBackend()
{
    return std::make_unique<QtBackend>();
}

} // namespace vh::sound
