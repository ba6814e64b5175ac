#pragma once
// The leader and one invited person, heard together: two streams that know nothing of each other, added and softly
// limited. One that is not fed costs nothing. Threads as VoicePlayer.
#include "common/sound/voice_player.h"

namespace vh
{

class VoiceMix
{
public:
    VoicePlayer& leader() { return m_leader; }
    VoicePlayer& invited() { return m_invited; }
    [[nodiscard]] const VoicePlayer& leader() const { return m_leader; }
    [[nodiscard]] const VoicePlayer& invited() const { return m_invited; }

    /// Playback thread: no lock, allocation, log. False: nothing plays, `out` is zeros.
    bool render(std::span<float> out);

private:
    VoicePlayer m_leader;
    VoicePlayer m_invited;
    std::array<float, 1024> m_other{};
};

} // namespace vh
