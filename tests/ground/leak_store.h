#pragma once
// The voices of the leak's proving ground, rendered once and used many times: what the leader says, dry (the far end)
// and as a small, overdriven loudspeaker and a room make it; and people, as they sound in the same rooms. Rooms are
// image-source responses (common/voice/room.h). Sound at kVoiceRateHz. Once made, any threads.
#include "tests/ground/people.h"

#include <map>
#include <mutex>

namespace vh::ground
{

/// No line of the leader's is longer.
inline constexpr double kLeakLineSeconds = 2.5;

/// One home: the same walls for the loudspeaker and the person.
struct LeakRoom {
    double rt60Seconds = 0;
    double loudspeakerMetres = 0;
    double headroomDb = 0; ///< where the loudspeaker bends, over the active level of what it plays
    Samples fromLoudspeaker;
    Samples fromMouth;
};

/// Something the leader says. Active level of `dry` 0 dB(A); of `wet`, 0 dB(A) on average over the lines of a room.
struct LeakLine {
    Samples dry;
    std::vector<Samples> wet; ///< by room
    double pitchHz = 0;       ///< of a held vowel, else 0
};

/// The same vowel on the same pitch, by a leader and by a person.
struct Unison {
    LeakLine leader;
    std::vector<Said> person; ///< by room
};

class LeakStore
{
public:
    LeakStore(std::size_t rooms, std::size_t sayingsPerRoom, std::size_t lines, std::uint64_t seed);

    [[nodiscard]] const std::vector<LeakRoom>& rooms() const { return m_rooms; }
    [[nodiscard]] const std::vector<LeakLine>& lines() const { return m_lines; }
    [[nodiscard]] const std::vector<Unison>& unisons() const { return m_unisons; }
    /// People of that kind in that room; `levelDbfsA` is that of the voice in the room. Made when first asked for.
    const std::vector<Said>& said(Kind kind, std::size_t room);
    /// Running speech of strangers, for televisions.
    [[nodiscard]] const std::vector<Samples>& talk() const { return m_talk; }

private:
    void makeRooms(std::size_t rooms);
    void makeWet(std::vector<LeakLine*> lines);
    void makeUnisons(std::size_t count);

    std::size_t m_perRoom;
    std::uint64_t m_seed;
    Random m_random;
    std::vector<LeakRoom> m_rooms;
    std::vector<LeakLine> m_lines;
    std::vector<Unison> m_unisons;
    std::vector<Samples> m_talk;
    std::mutex m_making; ///< of the people
    std::map<std::pair<Kind, std::size_t>, std::vector<Said>> m_said;
};

/// The sound with that response, as long as both together.
Samples convolved(std::span<const float> sound, std::span<const float> response);
/// A loudspeaker as small as a laptop's: 300 to 7000 Hz, bending softly `headroomDb` over an active level of 0 dB(A).
Samples throughSmallLoudspeaker(std::span<const float> dry, double headroomDb);

} // namespace vh::ground
