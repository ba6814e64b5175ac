#pragma once
// How loud the system has set an input: Qt 6.4 does not say it (QAudioSource::volume() is the program's own factor),
// and a moved slider changes every reading. Asks the PulseAudio server (or PipeWire in its stead). Private to
// app/sound.
#include <QByteArray>

#include <memory>
#include <optional>

namespace vh::sound
{

/// GUI thread. Answers come on a thread of the library; ask again later for the newest. Nothing without a server.
class PulseVolume
{
public:
    PulseVolume();
    PulseVolume(const PulseVolume&) = delete;
    PulseVolume& operator=(const PulseVolume&) = delete;
    ~PulseVolume();

    /// The last known volume of this source as a factor of the samples (1 = unchanged, 0 = muted), and asks anew. Never
    /// waits, so the first call for a source knows nothing yet.
    [[nodiscard]] std::optional<float> of(const QByteArray& sourceName);

private:
    class Line;
    std::unique_ptr<Line> m_line;
};

} // namespace vh::sound
