#pragma once
// What the pauses between words say of the microphone. An ordinary one shows the same room in each of them, as soon as
// the last word has died away. Where something rides the gain, the room comes up slowly after a word, and is lower
// right behind a loud one than in a long silence. Where a gate or a suppressor works, nothing at all is left, or less
// than any room has under a voice. A gain moves all that is heard alike: what does not show in the band under all
// voices (low_band.h) too, is a whistle or a breath. Frames of 10 ms; levels dB(A) full scale. Allocates nothing.
// Thread: one. The figures are from trial on the proving ground (tests/bench/bench_check.cpp), no published source.
#include "common/signal/voice_frame.h"

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>

namespace vh
{

class PauseWatch
{
public:
    enum class Finding : std::uint8_t { nothing, ridesGain, gated };

    /// What one long pause showed. Levels are quiet ones (a fifth of the time is below): a breath or a step spoils
    /// none.
    struct Pause {
        float voiceDbfsA = 0; ///< before it
        float earlyDbfsA = 0; ///< the quietest fifth of a second within 0.65 s after the voice was over
        float lateDbfsA = 0;  ///< from 1.2 s on, as long as it lasted, to 3 s
        bool black = false;   ///< digital silence
        float lowEarlyDb = 0; ///< the low band's mean a little behind the voice
        float lowLateDb = 0;  ///< and late
    };

    void add(const VoiceFrame& frame);
    /// A frame of a silence in which nobody has spoken before: what the room is without any voice. The last three
    /// seconds of it count.
    void addQuiet(const VoiceFrame& frame);
    void forgetQuiet() { m_quietCount = 0; }
    /// The pause that is on counts as it is.
    void finishPause();
    /// Of the last pauses; nothing while there were fewer than `kLeast`.
    [[nodiscard]] Finding finding() const;
    [[nodiscard]] std::size_t count() const { return m_count; }
    [[nodiscard]] const Pause& at(std::size_t i) const { return m_pauses[i]; }

    static constexpr std::size_t kLeast = 2; ///< of one alone twice as much is asked
    static constexpr std::size_t kKept = 8;

    struct Course { ///< over the pauses
        float least = 0;
        float median = 0;
    };
    /// How much the room comes up within them; how far it is, right behind a voice, under the
    /// room without any.
    [[nodiscard]] std::optional<float> quietDbfsA() const;
    [[nodiscard]] Course riseDb() const;
    [[nodiscard]] Course underQuietDb() const;
    /// The same of the low band. Much less exact; 0 where there is none.
    [[nodiscard]] float lowRiseDb() const;
    [[nodiscard]] float lowUnderQuietDb() const;
    [[nodiscard]] float lowLateOverQuietDb() const;
    /// Whether what is heard and the low band can have moved by one gain.
    [[nodiscard]] bool lowAgrees(float low, float heard) const;
    /// The voice over what is left of the room.
    [[nodiscard]] Course clearDb() const;
    /// The room towards the end of the pauses.
    [[nodiscard]] Course lateDbfsA() const;
    [[nodiscard]] bool mostlyBlack() const;

private:
    void begin();
    void end();
    template <class Value>
    [[nodiscard]] Course courseOf(Value&& value) const;
    [[nodiscard]] float lowQuietDb() const;

    static constexpr std::size_t kLongest = 300; ///< of a pause, frames

    std::array<float, kLongest> m_now{}; ///< of the pause that is on
    std::array<float, kLongest> m_nowLow{};
    std::size_t m_length = 0;
    bool m_inPause = false;
    int m_voiced = 0; ///< frames, since the last long pause
    double m_voicedEnergy = 0;
    float m_before = -120; ///< the voice before this pause
    std::array<Pause, kKept> m_pauses{};
    std::size_t m_next = 0;
    std::size_t m_count = 0;
    std::array<float, kLongest> m_quiet{};
    std::array<float, kLongest> m_quietLow{};
    std::size_t m_quietCount = 0; ///< ring
};

} // namespace vh
