#pragma once
// Whether somebody else speaks in the room: a television, a visitor; not the leader out of the loudspeaker. Known from
// what is heard while this person has nothing to say (listen, ready, pauses); the last 20 s of such time count. Frames
// of 10 ms; levels dB(A) full scale. Pure. Thread: one. The figures: common practice and trial on the proving ground,
// no published source.
#include "common/signal/voice_frame.h"

#include <array>
#include <cstdint>
#include <optional>

namespace vh
{

class OtherVoices
{
public:
    /// A tenth of the energy: what a louder voice still reads is then 0.4 dB too high (10 lg 1.1).
    static constexpr float kClearDb = 10;

    /// A turn in which this person is not asked to speak begins: its first second may still be the end of their own.
    void begin();
    /// A frame of such a turn.
    void add(const VoiceFrame& frame);
    /// How loud the others are, energy mean over their voice; nothing while there are none: less than a second and a
    /// half of voice in that time, or less than a seventh of it.
    [[nodiscard]] std::optional<float> levelDbfsA() const;

private:
    static constexpr std::size_t kSeconds = 20;
    struct Second {
        std::uint32_t frames = 0;
        std::uint32_t voiced = 0;
        double energy = 0; ///< of the voiced ones
    };
    std::array<Second, kSeconds> m_seconds{}; ///< ring
    std::size_t m_at = 0;
    std::uint32_t m_late = 0; ///< frames that still may be the person's own
};

} // namespace vh
