#pragma once
// What the program plays: one chosen output, fed on a thread of its own from a voice feed. A lost device is noticed
// within a second, said in words, and playing goes on by itself on the chosen device once it is back, or on the
// system's standard one meanwhile. All that is played also goes to the far end, for the microphone's line. Knows what
// is audible now, not only what was handed over: the cue on the screen follows that. GUI thread; the feed's methods
// run on the output's.
#include "app/sound/far_end.h"
#include "app/sound/loudspeaker_state.h"
#include "app/sound/sound_output.h"
#include "app/sound/source_watch.h"
#include "app/sound/voice_feed.h"
#include "common/base/clock.h"

#include <QObject>
#include <QTimer>
#include <QVector>

#include <chrono>
#include <memory>
#include <optional>

namespace vh::sound
{

class Loudspeaker : public QObject
{
    Q_OBJECT
public:
    /// Qt Multimedia's devices, and files. The feed outlives it.
    Loudspeaker(VoiceFeed& feed, std::shared_ptr<FarEnd> farEnd, QObject* parent = nullptr);
    /// Other devices: none (makeNullOutputs), or a test's.
    Loudspeaker(VoiceFeed& feed, std::shared_ptr<FarEnd> farEnd, std::unique_ptr<OutputBackend> backend,
                QObject* parent = nullptr);
    ~Loudspeaker() override;

    /// Plays there from now on, whatever was open before. A file is written; with Pace::byHand as far as advance()
    /// goes.
    void start(const DeviceChoice& choice);
    /// When it returns, the feed is not asked any more and the device is released.
    void stop();

    [[nodiscard]] LoudspeakerState state() const { return m_state; }
    /// As of the last look, once a second.
    [[nodiscard]] const QVector<DeviceInfo>& devices() const { return m_devices; }
    /// What is open now; an empty id when nothing is.
    [[nodiscard]] const DeviceInfo& openDevice() const { return m_open; }
    [[nodiscard]] const std::shared_ptr<FarEnd>& farEnd() const { return m_farEnd; }

    /// How far the leader's stream has been heard at this moment, by the device's own word on its latency; stream and
    /// sample 0 before the first of it sounds, and where nothing plays. Within a stream it never goes back.
    [[nodiscard]] HeardUpTo audibleUpTo();
    /// From handing over to sounding, at the last piece handed over.
    [[nodiscard]] std::optional<std::chrono::milliseconds> latency() const;

    /// With Pace::byHand: plays this much before the call returns.
    void advance(std::chrono::milliseconds by);

signals:
    void stateChanged(vh::sound::LoudspeakerState state);
    void devicesChanged();

private:
    class Feed;

    void look();
    void lookForDevices();
    void openWanted();
    void openOutput(std::unique_ptr<SoundOutput> output);
    void closeOutput();
    void setState(LoudspeakerState state);
    [[nodiscard]] std::optional<DeviceInfo> wanted() const;

    std::unique_ptr<OutputBackend> m_backend;
    std::shared_ptr<FarEnd> m_farEnd;
    SystemClock m_clock;
    QTimer m_lookTimer;
    QTimer m_devicesTimer;
    SourceWatch m_watch;
    LoudspeakerState m_state = LoudspeakerState::off;

    DeviceChoice m_choice;
    QVector<DeviceInfo> m_devices;
    DeviceInfo m_open;

    std::unique_ptr<Feed> m_feed; ///< outlives the output
    std::unique_ptr<SoundOutput> m_output;
};

} // namespace vh::sound
