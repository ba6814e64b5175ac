#include "demo/stage/wav_file.h"

#include <algorithm>
#include <sndfile.h>

namespace vh::stage
{

namespace
{
constexpr int kRateHz = 48'000;
}

bool writeWav(const std::filesystem::path& file, std::span<const float> samples, double seconds, WavKind kind)
{
    SF_INFO info{};
    info.samplerate = kRateHz;
    info.channels = 1;
    info.format = SF_FORMAT_WAV | (kind == WavKind::floats ? SF_FORMAT_FLOAT : SF_FORMAT_PCM_16);
    SNDFILE* out = samples.empty() ? nullptr : sf_open(file.string().c_str(), SFM_WRITE, &info);
    if (!out)
        return false;
    auto left = static_cast<sf_count_t>(seconds * kRateHz);
    bool written = true;
    while (left > 0 && written) {
        const auto part = std::min(left, static_cast<sf_count_t>(samples.size()));
        written = sf_writef_float(out, samples.data(), part) == part;
        left -= part;
    }
    return sf_close(out) == 0 && written;
}

} // namespace vh::stage
