#include "common/voice/room.h"

#include "common/signal/level.h"
#include "common/voice/fft.h"
#include "common/voice/images.h"
#include "common/voice/weighed.h"

#include <algorithm>
#include <functional>

namespace vh::voice
{

namespace
{

/// Blocks of about three responses: long enough that little of each transform is overlap.
std::size_t transformSizeFor(std::size_t responseLength)
{
    return powerOfTwoFrom(4 * responseLength);
}

} // namespace

RoomModel::RoomModel(const Room& room) : m_room(room)
{
    const std::vector<float> response = impulseResponse(room);
    m_length = response.size();
    m_spectrum.resize(transformSizeFor(m_length));
    std::copy(response.begin(), response.end(), m_spectrum.begin());
    fft(m_spectrum);
}

/// Overlap-add. Response and sound are real, so one complex transform carries two blocks: one real, one imaginary.
std::vector<float> RoomModel::reverberant(const std::vector<float>& dry) const
{
    const std::size_t size = m_spectrum.size();
    const std::size_t block = size - m_length + 1;
    const float scale = 1.0F / static_cast<float>(size);
    std::vector<float> wet(dry.size());
    std::vector<Complex> work(size);
    for (std::size_t first = 0; first < dry.size(); first += 2 * block) {
        const std::size_t second = first + block;
        std::fill(work.begin(), work.end(), Complex{});
        for (std::size_t i = 0; i < block && first + i < dry.size(); ++i)
            work[i] = {dry[first + i], second + i < dry.size() ? dry[second + i] : 0.0F};
        fft(work);
        for (std::size_t i = 0; i < size; ++i)
            work[i] = {work[i].real() * m_spectrum[i].real() - work[i].imag() * m_spectrum[i].imag(),
                       work[i].real() * m_spectrum[i].imag() + work[i].imag() * m_spectrum[i].real()};
        inverseFft(work);
        for (std::size_t i = 0; i < size && first + i < wet.size(); ++i)
            wet[first + i] += work[i].real() * scale;
        for (std::size_t i = 0; i < size && second + i < wet.size(); ++i)
            wet[second + i] += work[i].imag() * scale;
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
