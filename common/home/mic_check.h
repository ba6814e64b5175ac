#pragma once
// The mic check in short: three seconds of the room, then a few lines read aloud. Finds the room's own level, the usual
// level and what would spoil a reading. For leaders and simulated homes; participants have full_check.h. Time is
// counted in frames of 10 ms, so no clock is needed. Pure. Thread: one.
#include "common/home/check_parts.h"

namespace vh
{

class MicCheck
{
public:
    enum class Stage : std::uint8_t { room, speak, done };
    enum class Finding : std::uint8_t {
        fine,
        noSound,  ///< digital silence: the wrong device, or it is switched off
        noVoice,  ///< sound, but nobody was heard
        clipping, ///< too loud for this microphone: turn the input down
        tooNoisy, ///< the room is too near the voice: too far away, or something is on
    };

    void add(const VoiceFrame& frame);

    [[nodiscard]] Stage stage() const { return m_stage; }
    /// 0 ... 1 of the present stage.
    [[nodiscard]] float progress() const;
    [[nodiscard]] Finding finding() const { return m_finding; }
    /// After a check that was fine. dB(A) full scale.
    [[nodiscard]] std::optional<float> usualDbfsA() const;
    [[nodiscard]] float roomDbfsA() const { return m_room.dbfsA(); }

    static constexpr std::uint32_t kSpeakAtMostMs = 25000;
    static constexpr float kLeastSignalToNoiseDb = 10; ///< noise bias of an energy mean then: 0.4 dB

private:
    void endWith(Finding finding);
    [[nodiscard]] Finding judged() const;

    Stage m_stage = Stage::room;
    Finding m_finding = Finding::fine;
    RoomPart m_room;
    VoicePart m_voice;
};

} // namespace vh
