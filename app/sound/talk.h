#pragma once
// A voice on its way to everybody: the leader's, or an invited person's. Listens to the ears' one open microphone (it
// opens nothing itself), takes the far end out while somebody else is heard from this loudspeaker, mixes the bell and a
// recording in, encodes, and hands the frames over on the GUI thread, one each 20 ms, numbered by 48 kHz samples that
// count on through mute and through a lost microphone. GUI thread; the microphone's worker encodes.
#include "app/sound/line_listener.h"
#include "common/base/result.h"

#include <QObject>
#include <QTimer>

#include <chrono>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <span>

namespace vh::sound
{

class Ears;

class Talk : public QObject
{
    Q_OBJECT
public:
    /// One frame to be sent: the count of its first sample, and the coded sound.
    using Send = std::function<void(std::uint64_t firstSample, std::span<const std::uint8_t> payload)>;

    /// Registers with the ears as a listener: made before Ears::start(), or in force from the next opening. The ears
    /// must outlive it, or be stopped before it goes.
    explicit Talk(Ears& ears, QObject* parent = nullptr);
    ~Talk() override;

    /// Frames go to `send` from now on, while the ears hear. The count goes on where it was.
    void begin(Send send);
    void end();
    [[nodiscard]] bool sending() const;

    /// Muted: silence is sent in the microphone's place; frames go on. Bell and recording are heard all the same.
    void setMuted(bool muted);
    [[nodiscard]] bool muted() const;
    /// In turns in which people speak alone neither bell nor recording sounds; a recording waits where it is.
    void setPeopleSpeak(bool yes);
    /// Rings once; nothing while people speak.
    void ring();

    /// A WAV, Ogg or FLAC file, resampled to 48 kHz mono; at most kLongestRecording. Replaces the one before. Errors
    /// say what is wrong with the file in words for the leader.
    Result<std::chrono::milliseconds> loadRecording(const QString& path);
    void playRecording(); ///< from its beginning, or on from where it was paused
    void pauseRecording();
    void stopRecording(); ///< back to its beginning
    [[nodiscard]] bool recordingPlays() const;
    static constexpr std::chrono::minutes kLongestRecording{20};

    /// Frames lost because the GUI thread took none for seconds.
    [[nodiscard]] std::uint64_t droppedFrames() const;

signals:
    void recordingEnded();

private:
    class Line;

    void hand();

    Ears& m_ears;
    std::shared_ptr<Line> m_line;
    QTimer m_handTimer;
    Send m_send;
};

} // namespace vh::sound
