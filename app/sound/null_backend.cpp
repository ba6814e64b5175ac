// A machine without sound: no devices, and none ever comes.
#include "app/sound/sound_source.h"

namespace vh::sound
{

namespace
{

class NullBackend final : public SoundBackend
{
public:
    QVector<DeviceInfo> devices() override { return {}; }
    std::unique_ptr<SoundSource> openDevice(const QByteArray& /*id*/) override { return nullptr; }
    std::optional<float> inputVolume(const QByteArray& /*id*/) override { return std::nullopt; }
};

} // namespace

std::unique_ptr<SoundBackend> makeNullBackend()
{
    return std::make_unique<NullBackend>();
}

} // namespace vh::sound
