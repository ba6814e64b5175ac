#pragma once
// What a mic check listens to, one question at a time: the room, lines read aloud, one long vowel, one line with more
// voice. Each takes frames of 10 ms and counts time in them. Nothing ends because time is over: who is slow is waited
// for. Pure values. Thread: one.
#include "common/measure/usual_level.h"
#include "common/signal/voice_frame.h"

#include <cstdint>
#include <optional>

namespace vh
{

/// Energy mean of what was put in. dB(A) full scale, -120 for nothing.
class EnergyMean
{
public:
    void add(float meanSquare)
    {
        m_sum += static_cast<double>(meanSquare);
        ++m_frames;
    }
    [[nodiscard]] float dbfsA() const;
    [[nodiscard]] std::uint32_t milliseconds() const { return m_frames * VoiceFrame::kMilliseconds; }

private:
    double m_sum = 0;
    std::uint32_t m_frames = 0;
};

/// Three seconds of the room. Who speaks meanwhile is not the room, and is waited for, a while; nor is the silence of a
/// device that is waking up.
class RoomPart
{
public:
    static constexpr std::uint32_t kLengthMs = 3000;
    static constexpr std::uint32_t kAtMostMs = 9000;
    void add(const VoiceFrame& frame);
    [[nodiscard]] bool done() const { return m_quietMs >= kLengthMs || m_ms >= kAtMostMs; }
    [[nodiscard]] float progress() const;
    [[nodiscard]] float dbfsA() const { return m_room.dbfsA(); }
    [[nodiscard]] std::uint32_t heardMs() const { return m_room.milliseconds(); }
    /// Nothing but digital silence for more than half of it.
    [[nodiscard]] bool dead() const { return m_deadMs * 2 > m_ms; }

private:
    EnergyMean m_room;
    std::uint32_t m_ms = 0;
    std::uint32_t m_quietMs = 0;
    std::uint32_t m_deadMs = 0; ///< in a row
};

/// Lines read aloud, until there is enough of a voice. The first reading is dropped: people start louder than they go
/// on.
class VoicePart
{
public:
    static constexpr std::uint32_t kReadingMs = 1000; ///< of voice, for one reading
    static constexpr Millis kNeeded{3000};            ///< beyond the first reading
    static constexpr std::uint32_t kDeadForMs = 4000; ///< nothing but digital silence for this long
    void add(const VoiceFrame& frame);
    [[nodiscard]] bool done() const { return m_level.value(kNeeded).has_value(); }
    [[nodiscard]] bool dead() const { return m_deadMs >= kDeadForMs; }
    [[nodiscard]] float progress() const;
    [[nodiscard]] std::uint32_t elapsedMs() const { return m_ms; }
    [[nodiscard]] std::uint32_t voicedMs() const { return m_voicedMs; }
    [[nodiscard]] bool clips() const { return m_clippedMs * 50 > m_voicedMs && m_voicedMs > 0; }
    /// dB(A) full scale.
    [[nodiscard]] std::optional<float> level() const { return m_level.value(kNeeded); }

private:
    EnergyMean m_reading;
    LevelCheck m_level;
    std::uint32_t m_ms = 0;
    std::uint32_t m_deadMs = 0;
    std::uint32_t m_clippedMs = 0;
    std::uint32_t m_voicedMs = 0;
};

/// One utterance: a vowel held once, or one line. Over when its speaker is silent again, or goes on for long.
class UtterancePart
{
public:
    explicit UtterancePart(std::uint32_t leastMs) : m_leastMs(leastMs) {}
    void add(const VoiceFrame& frame);
    [[nodiscard]] bool done() const;
    [[nodiscard]] float progress() const;
    [[nodiscard]] std::uint32_t elapsedMs() const { return m_ms; }
    [[nodiscard]] std::uint32_t voicedMs() const { return m_voice.milliseconds(); }
    [[nodiscard]] bool clips() const { return m_clippedMs * 50 > voicedMs() && voicedMs() > 0; }
    [[nodiscard]] std::optional<float> level() const;

private:
    static constexpr std::uint32_t kOverAfterMs = 700; ///< longer than the gaps between words
    static constexpr std::uint32_t kLongEnoughMs = 8000;
    EnergyMean m_voice;
    std::uint32_t m_leastMs;
    std::uint32_t m_ms = 0;
    std::uint32_t m_silentMs = 0;
    std::uint32_t m_clippedMs = 0;
};

} // namespace vh
