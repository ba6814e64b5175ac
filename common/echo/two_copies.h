#pragma once
// Whether two copies of the leader's voice are heard: ours (the far end, as it was handed to the loudspeaker) and one
// that comes another way, a group call beside us. Compares the far end with what is heard (the microphone, or the
// monitor of the whole system) by generalised cross-correlation with phase transform (Knapp and Carter 1976), over
// stretches in which the far end speaks: each copy is a peak at its own delay. A room's echoes lie close behind their
// own peak and are not copies. Mono, 48 kHz; delays in ms, how much later than the far end a copy comes (negative:
// earlier). Thread: one. push never allocates; the transform of a stretch (about 2 ms) runs inside it.
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <vector>

namespace vh
{

class TwoCopies
{
public:
    struct Found {
        bool ours = false;        ///< a copy at the delay of our own playback, or the only one there is
        bool other = false;       ///< a second one
        int firstMs = 0;          ///< the strongest
        int secondMs = 0;         ///< where `other`
        std::uint32_t judged = 0; ///< how many stretches it rests on; 0: nothing can be said yet
        friend bool operator==(const Found&, const Found&) = default;
    };
    static constexpr int kEarliestMs = -1000;
    static constexpr int kLatestMs = 2000;
    static constexpr int kApartMs = 60; ///< nearer to each other it is the room

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
};

/// Which of two copies is to be muted, given how the leader says her voice comes.
enum class VoiceComes : std::uint8_t { fromHere, fromElsewhere };
enum class Mute : std::uint8_t {
    nothing,
    theOtherProgram, ///< her voice comes from here: the call's copy is too many
    ours,            ///< it comes from the call: we play nothing
};
[[nodiscard]] Mute whichToMute(const TwoCopies::Found& found, VoiceComes comes);

} // namespace vh
