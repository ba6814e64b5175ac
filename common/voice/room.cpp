#include "common/voice/room.h"

#include "common/signal/fourier.h"
#include "common/signal/level.h"
#include "common/voice/images.h"
#include "common/voice/weighed.h"

#include <algorithm>
#include <bit>
#include <functional>

namespace vh::voice
{

namespace
{

/// Blocks of about three responses: long enough that little of each transform is overlap.
std::size_t transformSizeFor(std::size_t responseLength)
{
    return std::bit_ceil(std::max<std::size_t>(4 * responseLength, 2));
}

} // namespace

RoomModel::RoomModel(const Room& room) : m_room(room)
{
    std::vector<float> response = impulseResponse(room);
    m_length = response.size();
    m_size = transformSizeFor(m_length);
    response.resize(m_size);
    m_spectrum.resize(m_size / 2 + 1);
    Fourier(m_size, Fourier::Way::forward).forward(response, m_spectrum);
}

/// Overlap-add.
std::vector<float> RoomModel::reverberant(const std::vector<float>& dry) const
{
    const std::size_t block = m_size - m_length + 1;
    const float scale = 1.0F / static_cast<float>(m_size);
    Fourier there(m_size, Fourier::Way::forward);
    Fourier back(m_size, Fourier::Way::back);
    std::vector<float> wet(dry.size());
    std::vector<float> work(m_size);
    std::vector<std::complex<float>> bins(m_spectrum.size());
    for (std::size_t at = 0; at < dry.size(); at += block) {
        const std::size_t count = std::min(block, dry.size() - at);
        std::copy_n(dry.begin() + static_cast<std::ptrdiff_t>(at), count, work.begin());
        std::fill(work.begin() + static_cast<std::ptrdiff_t>(count), work.end(), 0.0F);
        there.forward(work, bins);
        for (std::size_t k = 0; k < bins.size(); ++k) // written out: std::complex's product looks for infinities
            bins[k] = {bins[k].real() * m_spectrum[k].real() - bins[k].imag() * m_spectrum[k].imag(),
                       bins[k].real() * m_spectrum[k].imag() + bins[k].imag() * m_spectrum[k].real()};
        back.back(bins, work);
        for (std::size_t i = 0; i < m_size && at + i < wet.size(); ++i)
            wet[at + i] += work[i] * scale;
    }
    return wet;
}

Sound RoomModel::place(Sound sound, std::uint64_t seed) const
{
    sound.samples = reverberant(sound.samples);
    if (m_room.noise == NoiseKind::none || sound.samples.empty())
        return sound;
    double dbfsA = m_room.noiseDbfsA;
    const double voice = m_room.snrDb ? voicedLevelDbfsA(sound) : kLowestDb;
    if (voice > kLowestDb)
        dbfsA = voice - *m_room.snrDb;
    const std::vector<float> under = noise(m_room.noise, sound.samples.size(), dbfsA, seed);
    std::transform(sound.samples.begin(), sound.samples.end(), under.begin(), sound.samples.begin(), std::plus<>());
    return sound;
}

Sound inRoom(Sound sound, const Room& room, std::uint64_t seed)
{
    return RoomModel(room).place(std::move(sound), seed);
}

std::vector<float> inRoom(const std::vector<float>& samples, const Room& room, std::uint64_t seed)
{
    return inRoom(Sound{samples, {}, 0}, room, seed).samples;
}

} // namespace vh::voice
