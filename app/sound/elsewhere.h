#pragma once
// Voice from elsewhere: the group's call plays the leader's voice, Voicehall plays nothing. What the whole system plays
// (the monitor of its standard output, where the sound server has one) becomes the far end in the place of our own
// playback. The loudspeaker is stopped before this is started, and the other way round: one at a time hands over.
// GUI thread.
#include "app/sound/far_end.h"
#include "app/sound/sound_source.h"
#include "app/sound/source_watch.h"

#include <QObject>
#include <QTimer>

#include <functional>
#include <memory>

namespace vh::sound
{

class Elsewhere : public QObject
{
    Q_OBJECT
public:
    enum class State {
        off,
        on,        ///< the monitor is open; it brings samples while anything plays
        noMonitor, ///< this machine has none: what the loudspeaker plays is not known. Tried again every second
    };
    using MakeMonitor = std::function<std::unique_ptr<SoundSource>()>;

    explicit Elsewhere(std::shared_ptr<FarEnd> farEnd, QObject* parent = nullptr);
    /// With a test's monitor.
    Elsewhere(std::shared_ptr<FarEnd> farEnd, MakeMonitor make, QObject* parent = nullptr);
    ~Elsewhere() override;

    /// Before Ears::start() (the microphone is held back a little from then on).
    void start();
    void stop();
    [[nodiscard]] State state() const { return m_state; }

signals:
    void stateChanged(vh::sound::Elsewhere::State state);

private:
    class Sink;

    void look();
    void setState(State state);

    std::shared_ptr<FarEnd> m_farEnd;
    MakeMonitor m_make;
    QTimer m_lookTimer;
    int m_sinceTry = 0; ///< looks
    State m_state = State::off;
    std::unique_ptr<Sink> m_sink; ///< outlives the monitor
    std::unique_ptr<SoundSource> m_monitor;
};

} // namespace vh::sound
