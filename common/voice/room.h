#pragma once
// A room by the image-source model, with a microphone in it and a noise. Sounds go in as at 30 cm from the mouth and
// come out as the microphone has them: direct sound weaker with distance, reflections behind it, noise under all. The
// output is as long as the input (leave silence behind for the tail). The same seed, the same noise. Thread: any;
// RoomModel is immutable once built and may be shared.
// Source: Allen and Berkley 1979, J Acoust Soc Am 65:943 (rectangular room, images to the nearest sample, high-pass).
#include "common/voice/voice.h"

#include <array>
#include <complex>
#include <optional>

namespace vh::voice
{

enum class NoiseKind : std::uint8_t {
    none,
    room,   ///< falling by 3 dB an octave: a quiet house, distant traffic
    white,  ///< hiss
    fan,    ///< falling by 6 dB an octave above 100 Hz
    hum,    ///< 50 Hz and its harmonics
    babble, ///< six people talking at once, elsewhere
};

struct Room {
    std::array<double, 3> sizeMetres{4.6, 3.7, 2.5};
    double rt60Seconds = 0.4; ///< 0: no walls; up to 1.2
    double distanceMetres = 0.5;
    NoiseKind noise = NoiseKind::room;
    double noiseDbfsA = -75;     ///< A-weighted Leq of the noise at the microphone, dB re full scale
    std::optional<double> snrDb; ///< instead: so far under the voiced level at the microphone, if there is a voice
};

inline constexpr double kReferenceMetres = 0.3;

/// From the mouth to the microphone, 48 kHz; the direct sound has kReferenceMetres / distance. Ends after 1.0 * RT60.
[[nodiscard]] std::vector<float> impulseResponse(const Room& room);
/// Noise of A-weighted Leq `dbfsA`.
[[nodiscard]] std::vector<float> noise(NoiseKind kind, std::size_t samples, double dbfsA, std::uint64_t seed);

class RoomModel
{
public:
    explicit RoomModel(const Room& room);
    /// `sound` with its labels (those of the direct sound), in the room.
    [[nodiscard]] Sound place(Sound sound, std::uint64_t seed) const;
    /// The voice alone, without the noise.
    [[nodiscard]] std::vector<float> reverberant(const std::vector<float>& dry) const;

private:
    Room m_room;
    std::size_t m_length = 0;                    ///< of the response
    std::size_t m_size = 0;                      ///< of the transforms
    std::vector<std::complex<float>> m_spectrum; ///< of the response, zero-padded
};

/// RoomModel(room).place(sound, seed), for once.
[[nodiscard]] Sound inRoom(Sound sound, const Room& room, std::uint64_t seed);
[[nodiscard]] std::vector<float> inRoom(const std::vector<float>& samples, const Room& room, std::uint64_t seed);

} // namespace vh::voice
