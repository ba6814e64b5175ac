#pragma once
// Writes a WAV of a plain tone whose level is known in closed form: a sine of amplitude a has a mean square of a*a/2.
// A-weighting at 1 kHz is 0 dB (IEC 61672-1:2013, table 3), so its A-weighted level is 10 lg(a*a/2) dB re full scale.
#include <QString>

#include <sndfile.h>

#include <cmath>
#include <numbers>
#include <vector>

namespace vh::sound
{

struct Tone {
    double seconds = 2;
    double dbfs = -26; ///< mean square, full scale 1.0 = 0
    int rateHz = 48'000;
    int channels = 1;
    double hz = 1000;
};

inline bool writeTone(const QString& path, const Tone& tone)
{
    SF_INFO info{};
    info.samplerate = tone.rateHz;
    info.channels = tone.channels;
    info.format = SF_FORMAT_WAV | SF_FORMAT_FLOAT;
    SNDFILE* file = sf_open(path.toLocal8Bit().constData(), SFM_WRITE, &info);
    if (!file)
        return false;
    const double amplitude = std::sqrt(2 * std::pow(10, tone.dbfs / 10));
    const auto frames = static_cast<sf_count_t>(std::lround(tone.seconds * tone.rateHz));
    std::vector<float> samples(static_cast<std::size_t>(frames * tone.channels));
    for (sf_count_t i = 0; i < frames; ++i) {
        const double phase = 2 * std::numbers::pi * tone.hz * static_cast<double>(i) / tone.rateHz;
        for (int channel = 0; channel < tone.channels; ++channel)
            samples[static_cast<std::size_t>(i * tone.channels + channel)] =
                static_cast<float>(amplitude * std::sin(phase));
    }
    const bool written = sf_writef_float(file, samples.data(), frames) == frames;
    return sf_close(file) == 0 && written;
}

/// Leq over frames, the first `skip` left out (filters settling), in dB re full scale.
template <class Frames>
double leqOf(const Frames& frames, std::size_t skip)
{
    double sum = 0;
    for (std::size_t i = skip; i < frames.size(); ++i)
        sum += frames[i].meanSquareA;
    return 10 * std::log10(sum / static_cast<double>(frames.size() - skip));
}

} // namespace vh::sound
