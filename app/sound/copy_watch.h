#pragma once
// Listens for a second copy of the leader's voice while we play hers: in the microphone, and, where the sound server
// has one, in the monitor of everything that the system plays (that also tells a call on this computer from one on
// another device in the room). A listener of the ears; they must outlive it. GUI thread.
#include "app/sound/line_listener.h"
#include "app/sound/sound_source.h"
#include "common/echo/two_copies.h"

#include <QObject>
#include <QTimer>

#include <functional>
#include <memory>

namespace vh::sound
{

class Ears;

class CopyWatch : public QObject
{
    Q_OBJECT
public:
    struct Heard {
        bool onThisComputer = false; ///< in what the system plays
        bool inTheRoom = false;      ///< in the microphone
        [[nodiscard]] bool twice() const { return onThisComputer || inTheRoom; }
        friend bool operator==(const Heard&, const Heard&) = default;
    };

    explicit CopyWatch(Ears& ears, QObject* parent = nullptr);
    CopyWatch(Ears& ears, std::function<std::unique_ptr<SoundSource>()> makeMonitor, QObject* parent = nullptr);
    ~CopyWatch() override;

    /// From the ears' next opening on; until stop().
    void start();
    void stop();
    [[nodiscard]] const Heard& heard() const { return m_heard; }

signals:
    void changed();

private:
    class Line;

    void look();

    Ears& m_ears;
    std::function<std::unique_ptr<SoundSource>()> m_makeMonitor;
    std::shared_ptr<Line> m_line;
    std::unique_ptr<SoundSource> m_monitor;
    QTimer m_lookTimer;
    Heard m_heard;
};

} // namespace vh::sound
