#pragma once
// What the program hears: one chosen input, metered on a thread of its own. The GUI thread starts and stops it, drains
// the 10 ms frames on its own timer and reads the newest snapshot whenever it paints. A lost device is noticed within a
// second, said in words, and taken up again when it is back. After stop() the microphone is released: no stream is
// open. GUI thread for everything; frames that nobody drains for 30 s are dropped, and counted.
#include "app/sound/device_choice.h"
#include "app/sound/meter_snapshot.h"
#include "common/signal/voice_frame.h"

#include <QObject>
#include <QVector>
#include <chrono>
#include <optional>

#include <functional>
#include <memory>

namespace vh::sound
{

class SoundBackend;

enum class EarsState {
    off,        ///< not listening; nothing is open
    opening,    ///< asked for the device, no sound yet
    hearing,    ///< sound is coming in
    deviceLost, ///< it was there and is gone; looking for it every second
    noDevice,   ///< there is no microphone to open; looking for one every second
    fileEnded,  ///< the file has been heard to its end
    fileBad,    ///< the file could not be read
};

/// One plain sentence for a participant's screen.
QString wordsOf(EarsState state);

class Ears : public QObject
{
    Q_OBJECT
public:
    /// Qt Multimedia's devices, and files.
    explicit Ears(QObject* parent = nullptr);
    /// Tests bring their own devices.
    explicit Ears(std::unique_ptr<SoundBackend> backend, QObject* parent = nullptr);
    ~Ears() override;

    void start(const DeviceChoice& choice);
    void stop();

    [[nodiscard]] EarsState state() const;
    [[nodiscard]] MeterSnapshot snapshot() const;
    /// Hands over every frame since the last call, oldest first.
    void drainFrames(const std::function<void(const VoiceFrame&)>& sink);
    /// Frames dropped because nobody drained them.
    [[nodiscard]] std::uint64_t droppedFrames() const;

    /// As of the last look, once a second.
    [[nodiscard]] QVector<DeviceInfo> devices() const;
    /// What is open now; empty when nothing is. A usual level belongs to it.
    [[nodiscard]] DeviceInfo openDevice() const;
    /// 0 ... 1 where the system says it, else nothing. Usual levels hold for one volume only.
    [[nodiscard]] std::optional<float> inputVolume() const;

    /// With Pace::byHand: lets this much of the file be heard, metered before the call returns.
    void advance(std::chrono::milliseconds by);

signals:
    void stateChanged(vh::sound::EarsState state);
    void devicesChanged();
    void inputVolumeChanged();

private:
    class Private;
    std::unique_ptr<Private> m_d;
};

} // namespace vh::sound
