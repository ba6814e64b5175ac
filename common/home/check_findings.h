#pragma once
// What a mic check has heard, as numbers, and what they mean: at most one thing is said, the one to put right first.
// Pure values. Levels dB(A) full scale. The limits are from trial on the proving ground (tests/bench/bench_check.cpp)
// where no source is named.
#include "common/home/played_probe.h"
#include "common/signal/pause_watch.h"
#include "common/signal/room_gain.h"

#include <cstdint>
#include <optional>

namespace vh
{

struct CheckFacts {
    std::optional<float> roomDbfsA;
    bool silentRoom = false;         ///< the room was nothing but digital silence
    bool dead = false;               ///< and it stayed so while lines were to be read
    bool askedForVoice = false;      ///< lines were to be read
    std::uint32_t heardMs = 0;       ///< of them
    std::optional<float> usualDbfsA; ///< of lines read aloud
    std::optional<float> vowelDbfsA;
    std::optional<float> louderDbfsA;
    bool clips = false;
    PauseWatch pauses;
    RoomGain roomGain;
    std::optional<PlayedProbe::Result> played; ///< absent: nothing was played
    PauseWatch playedPauses;                   ///< what lay between its parts
    std::uint32_t bufferMs = 0;                ///< of the delay, this program's own
    bool otherVolume = false;
    int people = 1; ///< who speak at this computer
};

enum class CheckFinding : std::uint8_t {
    fine,
    noSound,            ///< digital silence: switched off
    wrongDevice,        ///< neither the person nor the loudspeaker is heard, or nothing but the loudspeaker's own line
    noVoice,            ///< the microphone is alive, but there was too little of a voice
    clipping,           ///< too loud for this microphone
    gated,              ///< something shuts out soft sound
    ridesGain,          ///< something evens out soft and loud
    tooFar,             ///< the voice is too near a quiet room
    roomTooNoisy,       ///< the room is too near the voice
    otherVolume,        ///< the input volume is not what it was
    lateLoudspeaker,    ///< a wireless delay
    loudspeakerTooLoud, ///< comes back louder than the person
};

[[nodiscard]] CheckFinding findingOf(const CheckFacts& facts);
/// Whether levels of this microphone mean anything: the usual level may be kept.
[[nodiscard]] bool levelsHold(CheckFinding finding);
/// The reason that a blank would give in class; none where readings can be trusted all the same.
[[nodiscard]] Blank blankOf(CheckFinding finding);

inline constexpr float kLeastOverRoomDb = 10; ///< noise bias of an energy mean then: 0.4 dB
/// ITU-T G.114: under 150 ms one way most people notice nothing; wired loudspeakers take 5 to 10 ms, wireless ones 100
/// to 300 (consumer pages).
inline constexpr std::uint32_t kLateFromMs = 150;

} // namespace vh
