#pragma once
// Everything a mic check hears, made beforehand and used in many trials: people who read, hold a vowel and speak up,
// each in a room at a distance; the check's own sound on a loudspeaker in such rooms; noises. At kVoiceRateHz. Thread:
// one.
#include "common/home/probe_sound.h"
#include "tests/ground/noises.h"
#include "tests/ground/people.h"

#include <map>

namespace vh::ground
{

/// What may sound beside a check. Where a television talks, no check is made.
inline constexpr std::array kCheckNoises{Noise::breath,  Noise::cough, Noise::door, Noise::dog,
                                         Noise::whistle, Noise::hum,   Noise::fan};

/// How somebody holds a vowel.
enum class Hold : std::uint8_t { even, fading, trembling };

struct Reader {
    Kind kind = Kind::modal;
    std::vector<Samples> lines; ///< one by one, with the room's tail; active level 0 dB(A) before the room
    Samples vowel;              ///< at the level of the lines, about
    Hold hold = Hold::even;
};

class CheckRoom
{
public:
    CheckRoom(std::size_t readersPerKind, std::size_t rooms, std::uint64_t seed);

    [[nodiscard]] const std::vector<Reader>& readers(Kind kind) const { return m_readers.at(kind); }
    /// The check's sound as it arrives at a microphone, level 0 dB(A) of its spoken line; and what was played, by the
    /// 10 ms.
    [[nodiscard]] const std::vector<Samples>& played() const { return m_played; }
    [[nodiscard]] const std::vector<double>& playedFrames() const { return m_playedFrames; }
    [[nodiscard]] const ProbeLayout& layout() const { return m_layout; }
    [[nodiscard]] const Samples& room() const { return m_room; }
    /// What a microphone makes of itself: white, effective value 1.
    [[nodiscard]] const Samples& hiss() const { return m_hiss; }
    /// Rumble from outside, effective value 1.
    [[nodiscard]] const Samples& street() const { return m_street; }
    [[nodiscard]] const Samples& noise(Noise noise, Random& random) const;

private:
    std::map<Kind, std::vector<Reader>> m_readers;
    std::vector<Samples> m_played;
    std::vector<double> m_playedFrames;
    ProbeLayout m_layout;
    Samples m_room;
    Samples m_street;
    Samples m_hiss;
    std::map<Noise, std::vector<Samples>> m_noises;
};

} // namespace vh::ground
