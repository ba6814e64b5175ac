#pragma once
// A voice on its way to everybody: the leader's, or an invited person's. Listens to the ears' one open microphone (it
// opens nothing itself), takes the loudspeaker out while somebody else is heard from it, mixes the bell and a recording
// in, encodes, and hands the frames over on the GUI thread, one each 20 ms, numbered by 48 kHz samples that count on
// through mute, pauses and a lost microphone. GUI thread; the microphone's worker encodes.
#include "app/sound/recording_player.h"
#include "common/base/result.h"
#include "common/wire/binary.h"

#include <QObject>
#include <QTimer>

#include <chrono>
#include <cstdint>
#include <functional>
#include <memory>
#include <span>

namespace vh::sound
{

class Ears;

class Talk : public QObject
{
    Q_OBJECT
public:
    /// One frame to be sent (wire::encodeSound).
    using Send = std::function<void(const wire::SoundHead& head, std::span<const std::uint8_t> payload)>;

    /// A number that nobody else has: a stream is never gone on with by another Talk.
    static std::uint32_t newStream();

    /// Listens from the ears' next opening on: make it before Ears::start(). The ears must outlive it.
    Talk(Ears& ears, std::uint32_t stream, QObject* parent = nullptr);
    ~Talk() override;
    [[nodiscard]] std::uint32_t stream() const;

    /// Frames go to `send` from now on, while the ears hear and unless muted. A microphone with a meter and no begin()
    /// sends nothing.
    void begin(Send send);
    void end();
    [[nodiscard]] bool sending() const { return m_send != nullptr; }

    /// Muted nothing is sent, neither voice nor bell nor recording.
    void setMuted(bool muted);
    [[nodiscard]] bool muted() const;
    /// In `yours` turns people speak alone: neither bell nor recording sounds; a recording waits where it is.
    void setYours(bool yours);
    /// Rings once; not at all in `yours` turns.
    void ring();

    /// A WAV, Ogg or FLAC file in the place of the one before; its length. Errors are in words for the leader.
    Result<std::chrono::milliseconds> loadRecording(const QString& path);
    void playRecording(); ///< from its beginning
    void stopRecording();
    [[nodiscard]] bool recordingPlays() const { return m_recording.plays(); }

    /// Frames lost because the GUI thread took none for seconds.
    [[nodiscard]] std::uint64_t droppedFrames() const;

signals:
    /// It was played to its end.
    void recordingEnded();

private:
    class Line;

    void hand();

    Ears& m_ears;
    std::shared_ptr<Line> m_line;
    QTimer m_handTimer;
    Send m_send;
    RecordingPlayer m_recording;
};

} // namespace vh::sound
