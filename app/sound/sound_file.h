#pragma once
// A sound file read from its beginning on, whatever libsndfile reads (WAV, FLAC, Ogg and more); several channels are
// averaged. Full scale 1.0. One thread.
#include "common/base/result.h"

#include <QString>

#include <sndfile.h>

#include <cstddef>
#include <memory>
#include <span>
#include <vector>

namespace vh::sound
{

class SoundFile
{
public:
    /// Fails, in words for whoever chose the file, when it cannot be opened, is empty, or has a rate that Resampler
    /// does not take.
    static Result<SoundFile> open(const QString& path);

    [[nodiscard]] int rateHz() const { return m_info.samplerate; }
    [[nodiscard]] std::int64_t frames() const { return m_info.frames; }
    /// How many there were; fewer than asked for is the end, or a broken file.
    std::size_t read(std::span<float> into);
    void rewind();

private:
    struct Closer {
        void operator()(SNDFILE* file) const { sf_close(file); }
    };
    std::unique_ptr<SNDFILE, Closer> m_file;
    SF_INFO m_info{};
    std::vector<float> m_piece; ///< some frames, all channels
};

} // namespace vh::sound
