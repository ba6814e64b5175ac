#include "app/sound/recording_player.h"

namespace vh::sound
{

Result<std::chrono::milliseconds> RecordingPlayer::load(const QString& path)
{
    auto file = SoundFile::open(path);
    if (!file)
        return tl::unexpected(file.error());
    const std::chrono::milliseconds length(file->frames() * 1000 / file->rateHz());
    if (length > kLongest)
        return fail("recording-too-long", "This recording is longer than 20 minutes. A shorter one would do.",
                    path.toStdString());
    m_file = std::move(*file);
    m_plays = false;
    return length;
}

void RecordingPlayer::play(Recording& into)
{
    if (!m_file)
        return;
    into.stop();
    m_file->rewind();
    m_resampler.emplace(m_file->rateHz());
    m_ready.clear();
    m_plays = true;
    feed(into);
}

void RecordingPlayer::stop(Recording& into)
{
    into.stop();
    m_ready.clear();
    m_plays = false;
}

bool RecordingPlayer::feed(Recording& into)
{
    if (!m_plays)
        return false;
    bool more = true;
    do {
        const std::size_t taken = into.feed(m_ready);
        m_ready.erase(m_ready.begin(), m_ready.begin() + static_cast<std::ptrdiff_t>(taken));
    } while (m_ready.empty() && (more = readOn()));
    if (more || !m_ready.empty() || into.sounding())
        return false;
    m_plays = false;
    return true;
}

bool RecordingPlayer::readOn()
{
    const std::size_t got = m_file->read(m_read);
    m_resampler->push(std::span<const float>(m_read).first(got), [this](std::span<const float> piece) {
        m_ready.insert(m_ready.end(), piece.begin(), piece.end());
    });
    return got > 0;
}

} // namespace vh::sound
