#pragma once
// The mic check's own sound on the loudspeaker, and what comes of it at the microphone: both as A-weighted mean squares
// of 10 ms, the microphone's before anything is taken out of it. Listens to the ears, which it must not outlive; plays
// by a loudspeaker of its own: nothing else may play meanwhile (one only hands over to the far end). GUI thread; the
// listener's half runs on the line's worker and the feed on the output's, without a lock or an allocation.
#include "app/sound/ears.h"
#include "app/sound/line_listener.h"
#include "app/sound/loudspeaker.h"
#include "app/sound/spsc_queue.h"
#include "app/sound/voice_feed.h"
#include "common/home/probe_sound.h"
#include "common/signal/weighting.h"

#include <QObject>

#include <atomic>
#include <functional>
#include <memory>

namespace vh::join
{

class CheckSound : public QObject
{
    Q_OBJECT
public:
    struct Heard {
        float microphone = 0;
        float played = 0;
    };

    /// Before the ears start; the far end is the one that they have.
    CheckSound(sound::Ears& ears, std::shared_ptr<sound::FarEnd> farEnd, QObject* parent = nullptr);
    ~CheckSound() override;

    /// From its beginning, after a second of silence.
    void start(const sound::DeviceChoice& where);
    void stop();
    [[nodiscard]] bool isOn() const { return m_on; }
    [[nodiscard]] const ProbeLayout& layout();
    /// All that came since the last call, oldest first.
    void drain(const std::function<void(const Heard&)>& sink);
    /// With Pace::byHand: before the microphone's own advance.
    void advance(std::chrono::milliseconds by);

signals:
    void stateChanged(vh::sound::LoudspeakerState state);

private:
    class Listener;

    void make();

    sound::Ears& m_ears;
    std::shared_ptr<sound::FarEnd> m_farEnd;
    std::shared_ptr<Listener> m_listener;
    ProbeSound m_sound; ///< made when it is first wanted
    VoiceMix m_nobody;
    sound::MixFeed m_feed{m_nobody};
    std::unique_ptr<sound::Loudspeaker> m_loudspeaker;
    bool m_on = false;
};

} // namespace vh::join
