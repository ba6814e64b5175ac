#include "app/sound/sound_file.h"

#include "common/signal/resampler.h"

#include <algorithm>

namespace vh::sound
{

namespace
{
constexpr std::size_t kFramesAtOnce = 1024;
} // namespace

Result<SoundFile> SoundFile::open(const QString& path)
{
    SoundFile file;
    file.m_file.reset(sf_open(path.toLocal8Bit().constData(), SFM_READ, &file.m_info));
    if (!file.m_file)
        return fail("sound-file-unreadable", "This file could not be read as sound. A WAV file would do.",
                    path.toStdString());
    if (file.m_info.frames <= 0)
        return fail("sound-file-empty", "There is no sound in this file.", path.toStdString());
    if (file.rateHz() < Resampler::kLowestRateHz || file.rateHz() > Resampler::kHighestRateHz)
        return fail("sound-file-rate", "This file has an unusual sampling rate; 48 kHz would do.", path.toStdString());
    file.m_piece.resize(kFramesAtOnce * static_cast<std::size_t>(file.m_info.channels));
    return file;
}

std::size_t SoundFile::read(std::span<float> into)
{
    const auto channels = static_cast<std::size_t>(m_info.channels);
    std::size_t done = 0;
    while (done < into.size()) {
        const auto wanted = static_cast<sf_count_t>(std::min(kFramesAtOnce, into.size() - done));
        const sf_count_t got = sf_readf_float(m_file.get(), m_piece.data(), wanted);
        for (std::size_t frame = 0; frame < static_cast<std::size_t>(got); ++frame) {
            float sum = 0;
            for (std::size_t channel = 0; channel < channels; ++channel)
                sum += m_piece[frame * channels + channel];
            into[done + frame] = sum / static_cast<float>(channels);
        }
        done += static_cast<std::size_t>(got);
        if (got < wanted)
            break;
    }
    return done;
}

void SoundFile::rewind()
{
    sf_seek(m_file.get(), 0, SEEK_SET);
}

} // namespace vh::sound
