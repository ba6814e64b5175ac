#pragma once
// Whether two copies of the leader's voice are heard: ours (the far end, as it was handed to the loudspeaker) and one
// that comes another way, a group call beside us. Compares the far end with what is heard (the microphone, or the
// monitor of the whole system) by generalised cross-correlation with phase transform (C. H. Knapp, G. C. Carter, "The
// generalized correlation method for estimation of time delay", IEEE Trans. ASSP 24, 1976), over stretches of four
// seconds in which the far end speaks: each copy is a peak at its own delay. A room's echoes lie close behind their own
// peak and are not copies; nor is a sound that resembles itself (a held vowel).
// Mono, 48 kHz; delays in ms, how much later than the far end a copy comes (negative: earlier). Thread: one. push never
// allocates, locks or logs; the transforms of a stretch (some milliseconds of work) run inside it.
#include <cstdint>
#include <memory>
#include <span>

namespace vh
{

class TwoCopies
{
public:
    struct Found {
        int copies = 0;           ///< 0, 1 or 2: more are not told apart
        int firstMs = 0;          ///< of the strongest, where there is one
        int secondMs = 0;         ///< where there are two
        std::uint32_t judged = 0; ///< stretches looked at; under kStretches nothing is claimed
        friend bool operator==(const Found&, const Found&) = default;
    };
    static constexpr int kEarliestMs = -1000;
    static constexpr int kLatestMs = 2000;
    static constexpr int kApartMs = 60;            ///< nearer to each other it is the room
    static constexpr std::uint32_t kStretches = 2; ///< a second copy must be at one place in as many in a row

    TwoCopies();
    ~TwoCopies();
    TwoCopies(const TwoCopies&) = delete;
    TwoCopies& operator=(const TwoCopies&) = delete;

    /// Equally long spans of the same stretch of time.
    void push(std::span<const float> farEnd, std::span<const float> heard) noexcept;
    /// Devices have changed: delays are others now.
    void restart() noexcept;
    [[nodiscard]] const Found& found() const { return m_found; }

private:
    class Work;
    std::unique_ptr<Work> m_work;
    Found m_found;
    int m_lastSecondMs = 0; ///< of the last stretch, where it had one
    std::uint32_t m_seenInARow = 0;
};

} // namespace vh
