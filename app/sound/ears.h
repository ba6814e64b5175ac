#pragma once
// What the program hears: one chosen input, metered on a thread of its own. The GUI thread starts and stops it, drains
// the 10 ms frames on its own timer and reads the newest snapshot whenever it paints. A lost device is noticed within a
// second, said in words, and taken up again when it is back. After stop() the microphone is released: no stream is
// open. Where a far end is given, what the loudspeaker plays is told from the person (frames say whose). GUI thread for
// everything; frames that nobody drains for 40 s are dropped, and counted.
#include "app/sound/device_choice.h"
#include "app/sound/ears_state.h"
#include "app/sound/far_end.h"
#include "app/sound/line_listener.h"
#include "app/sound/meter_snapshot.h"
#include "app/sound/source_watch.h"
#include "common/base/clock.h"
#include "common/signal/voice_frame.h"

#include <QObject>
#include <QTimer>
#include <QVector>

#include <chrono>
#include <functional>
#include <memory>
#include <optional>
#include <vector>

namespace vh::sound
{

class SoundLine;

class Ears : public QObject
{
    Q_OBJECT
public:
    /// Qt Multimedia's devices, and files.
    explicit Ears(QObject* parent = nullptr);
    /// Other devices: none (makeNullBackend), or a test's.
    explicit Ears(std::unique_ptr<SoundBackend> backend, QObject* parent = nullptr);
    ~Ears() override;

    /// What the loudspeaker plays; null: nothing does. In force from the next opening of the microphone.
    void setFarEnd(std::shared_ptr<FarEnd> farEnd) { m_farEnd = std::move(farEnd); }
    /// The way from the loudspeaker to the microphone, as learnt earlier at this spot; in force like the far end.
    void setEchoPath(std::optional<EchoPath> path)
    {
        m_path = path;
        m_pathOf.clear();
    }
    /// As learnt up to now on what is open (or was last).
    [[nodiscard]] std::optional<EchoPath> echoPath() const;
    /// Hears the open microphone too, from its next opening on. Forgotten listeners are let go when that is closed.
    void addListener(std::shared_ptr<LineListener> listener) { m_listeners.push_back(std::move(listener)); }
    void removeListener(const std::shared_ptr<LineListener>& listener) { std::erase(m_listeners, listener); }
    /// What happens when a chosen device is gone. Wait for it: a usual level belongs to it. Take the standard one: her
    /// voice matters more; the chosen one is taken again at the next start().
    enum class WhenGone { wait, takeStandard };
    void setWhenGone(WhenGone what) { m_whenGone = what; }

    /// Listens to this from now on, whatever was open before.
    void start(const DeviceChoice& choice);
    /// When it returns, the microphone is released.
    void stop();

    [[nodiscard]] EarsState state() const { return m_state; }
    [[nodiscard]] MeterSnapshot snapshot() const;
    /// Hands over every frame since the last call, oldest first.
    void drainFrames(const std::function<void(const VoiceFrame&)>& sink);
    /// Since start(): frames lost because nobody drained them or the machine was far behind.
    [[nodiscard]] std::uint64_t droppedFrames() const;

    /// As of the last look, once a second.
    [[nodiscard]] const QVector<DeviceInfo>& devices() const { return m_devices; }
    /// What is open now; an empty id when nothing is. A usual level belongs to it.
    [[nodiscard]] const DeviceInfo& openDevice() const { return m_open; }
    /// Of the open device: how the system scales its samples (1: not at all), where it says so. A usual level holds for
    /// one volume only.
    [[nodiscard]] std::optional<float> inputVolume() const { return m_volume; }

    /// With Pace::byHand: lets this much of the file be heard, metered before the call returns.
    void advance(std::chrono::milliseconds by);

signals:
    void stateChanged(vh::sound::EarsState state);
    void devicesChanged();
    void inputVolumeChanged();

private:
    void look();
    void lookForDevices();
    void openWanted();
    void openSource(std::unique_ptr<SoundSource> source, Pace pace);
    void closeSource();
    void setState(EarsState state);
    void setVolume(std::optional<float> volume);
    [[nodiscard]] std::optional<DeviceInfo> wanted() const;

    std::unique_ptr<SoundBackend> m_backend;
    SystemClock m_clock;
    QTimer m_lookTimer;
    QTimer m_devicesTimer;
    SourceWatch m_watch;
    EarsState m_state = EarsState::off;

    std::shared_ptr<FarEnd> m_farEnd;
    std::optional<EchoPath> m_path;
    QByteArray m_pathOf; ///< the microphone it was learnt on; empty: told
    std::vector<std::shared_ptr<LineListener>> m_listeners;
    WhenGone m_whenGone = WhenGone::wait;
    DeviceChoice m_choice;
    QVector<DeviceInfo> m_devices;
    DeviceInfo m_open;
    std::optional<float> m_volume;

    std::unique_ptr<SoundLine> m_line; ///< outlives the source
    std::unique_ptr<SoundSource> m_source;
    std::vector<VoiceFrame> m_left; ///< not drained when the last line closed
    std::uint64_t m_framesBefore = 0;
    std::uint64_t m_droppedBefore = 0;
};

} // namespace vh::sound
