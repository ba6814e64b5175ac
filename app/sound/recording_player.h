#pragma once
// The leader's recording, from a file into the sender: decoded a little ahead, resampled to 48 kHz mono. GUI thread;
// feed() now and then, at least once a second. It belongs to the file, not to the voice: the sender says when it
// sounds.
#include "app/sound/sound_file.h"
#include "common/signal/resampler.h"
#include "common/sound/recording.h"

#include <chrono>
#include <optional>

namespace vh::sound
{

class RecordingPlayer
{
public:
    static constexpr std::chrono::minutes kLongest{20};

    /// Takes this file in the place of the one before; its length. Errors are in words for the leader.
    Result<std::chrono::milliseconds> load(const QString& path);
    [[nodiscard]] bool loaded() const { return m_file.has_value(); }

    /// From the beginning. Nothing without a file.
    void play(Recording& into);
    void stop(Recording& into);
    /// True once, when its end has been heard.
    bool feed(Recording& into);
    [[nodiscard]] bool plays() const { return m_plays; }

private:
    bool readOn();

    std::optional<SoundFile> m_file;
    std::optional<Resampler> m_resampler;
    std::vector<float> m_read = std::vector<float>(2048);
    std::vector<float> m_ready; ///< resampled and not taken yet
    bool m_plays = false;
};

} // namespace vh::sound
