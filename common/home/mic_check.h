#pragma once
// The first mic check: three seconds of the room, then a few lines read aloud. Finds the room's own level, the usual
// level (the first reading is dropped: people start louder than they go on) and what would spoil a reading. Time is
// counted in frames of 10 ms, so no clock is needed. Pure. Thread: one.
#include "common/measure/usual_level.h"
#include "common/signal/voice_frame.h"

#include <cstdint>
#include <optional>

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
    [[nodiscard]] float roomDbfsA() const { return m_roomDbfsA; }

    static constexpr std::uint32_t kRoomMs = 3000;
    static constexpr std::uint32_t kReadingMs = 1000; ///< of voice, for one reading
    static constexpr Millis kVoiceNeeded{3000};       ///< beyond the first reading
    static constexpr std::uint32_t kSpeakAtMostMs = 25000;
    static constexpr std::uint32_t kDeadForMs = 4000;  ///< while speaking: nothing but digital silence for this long
    static constexpr float kLeastSignalToNoiseDb = 10; ///< noise bias of an energy mean then: 0.4 dB

private:
    void addRoom(const VoiceFrame& frame);
    void addVoice(const VoiceFrame& frame);
    void endWith(Finding finding);
    [[nodiscard]] Finding judged() const;

    Stage m_stage = Stage::room;
    Finding m_finding = Finding::fine;
    std::uint32_t m_stageMs = 0;
    std::uint32_t m_silentMs = 0; ///< in a row
    std::uint32_t m_clippedMs = 0;
    double m_roomEnergy = 0;
    std::uint32_t m_roomFrames = 0;
    float m_roomDbfsA = -120;
    double m_energy = 0; ///< of the reading under way
    std::uint32_t m_voicedMs = 0;
    std::uint32_t m_allVoicedMs = 0;
    LevelCheck m_level;
};

} // namespace vh
