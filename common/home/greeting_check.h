#pragma once
// The short check of a device and spot that are known: one spoken line. Says whether the voice and the room are about
// as they were; only what is far off is spoken of, since people are not alike from day to day. Frames of 10 ms; levels
// dB(A) full scale. Nothing ends because time is over. Pure. Thread: one.
#include "common/home/check_parts.h"

namespace vh
{

class GreetingCheck
{
public:
    /// As found at the last check.
    GreetingCheck(std::optional<float> usualDbfsA, std::optional<float> roomDbfsA)
        : m_usualDbfsA(usualDbfsA), m_wasRoomDbfsA(roomDbfsA)
    {
    }
    GreetingCheck() = default;

    void add(const VoiceFrame& frame);

    [[nodiscard]] bool done() const { return m_voice.done(); }
    [[nodiscard]] float progress() const { return m_voice.progress(); }
    [[nodiscard]] bool needsHint() const { return !done() && m_voice.elapsedMs() >= kHintAfterMs; }
    /// When done: neither too loud for the microphone, nor far from what is known of this spot.
    [[nodiscard]] bool asKnown() const;
    /// The room between the words; nothing while it was not heard for a second.
    [[nodiscard]] std::optional<float> roomDbfsA() const;

    /// Session to session 2 dB are usual and 6 dB occur (Brown, Morris & Murry 1996, J Voice 10:299); a hoarse morning
    /// is no fault of the microphone.
    static constexpr float kFarOffDb = 10;

private:
    static constexpr std::uint32_t kHintAfterMs = 12000;
    static constexpr std::uint32_t kVoiceMs = 1000;

    std::optional<float> m_usualDbfsA;
    std::optional<float> m_wasRoomDbfsA;
    UtterancePart m_voice{kVoiceMs};
    EnergyMean m_room;
};

} // namespace vh
