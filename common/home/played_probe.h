#pragma once
// What came back of a sound that was played on the loudspeaker and is known: how late, how loud, and whether the
// microphone's gain stayed the same through it. For the loudest and the faintest part of a held vowel the difference
// at the microphone must be the difference that was played; what is less was evened out, what is more was eaten.
// Mean squares of 10 ms, A-weighted, full scale = 1. Pure. Thread: one.
// The figures are from trial on the proving ground (tests/bench/bench_check.cpp), no published source.
#include <cstdint>
#include <optional>
#include <vector>

namespace vh
{

/// Where in the sound the vowel is held evenly, and where it fades. Frames of 10 ms.
struct ProbeLayout {
    std::size_t evenFrom = 0, evenTo = 0;
    std::size_t fadeFrom = 0, fadeTo = 0;
    std::size_t length = 0;
};

class PlayedProbe
{
public:
    explicit PlayedProbe(ProbeLayout layout);

    /// 10 ms of the microphone as it is, and of what was handed to the loudspeaker meanwhile. From a second before the
    /// sound to a second behind it.
    void add(float microphone, float played);

    struct Result {
        bool heard = false; ///< the microphone hears the loudspeaker
        float likeness = 0; ///< 0 ... 1, of the two courses of level
        std::uint32_t delayMs = 0;
        float loudDbfsA = -120; ///< its loud moments at the microphone
        float gainDb = 0;       ///< from what was played to the microphone
        float evenedDb = 0;     ///< how much more gain the faint part of the vowel had than the loud one; under 0: less
        float softerDb = 0;     ///< the same of the even vowel, which is softer than the loud part of the fading one
        float driftDb = 0;      ///< of the gain while the even vowel was held
        float seenDb = 0;       ///< how wide a range of levels stood clear of the room
        bool tells = false;     ///< enough of it stood clear of the room
    };
    [[nodiscard]] Result result() const;

    static constexpr std::uint32_t kLongestDelayMs = 700;

private:
    ProbeLayout m_layout;
    std::vector<float> m_microphone;
    std::vector<float> m_played;
};

} // namespace vh
