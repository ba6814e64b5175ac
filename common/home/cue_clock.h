#pragma once
// When the cue of a home changes. The text of a new place shows at once; whose turn it is changes when the leader is
// heard to change: with the first sample of the next sound frame of their stream that came after the place. Where no
// sound flows it changes at once, as by the clock; sound that has stalled holds it for kAtMost and no longer.
// Samples are counted at 48 kHz over the leader's whole stream. Pure; the caller brings the time. Thread: one.
#include "common/base/clock.h"
#include "common/wire/to_client.h"

#include <cstdint>
#include <deque>
#include <optional>

namespace vh
{

class CueClock
{
public:
    /// No frame for this long: no sound flows. Frames are 20 ms; what the line holds back beyond this is a stall.
    static constexpr Millis kQuietAfter{300};
    static constexpr Millis kAtMost{2000};

    /// Whether the leader's voice comes by this hall at all (not muted, not from elsewhere), and which stream it is.
    void setStream(std::optional<std::uint32_t> stream);
    /// A frame of some stream has come, in the order of the hall's log.
    void frameCame(std::uint32_t stream, std::uint64_t firstSample, Instant now);
    /// A place has come, in the same order. One that only repeats the turn that is cued counts at once.
    void placeCame(const wire::PlaceNow& place, Instant now);
    /// No class any more.
    void forget();

    /// Looks at the loudspeaker: up to which sample (not included) the stream can be heard by now; nothing where
    /// nothing is played. True when the cue has changed since the last look.
    bool look(std::optional<std::uint64_t> audibleUpTo, Instant now);

    /// The place whose cue stands now.
    [[nodiscard]] const std::optional<wire::PlaceNow>& cue() const { return m_cue; }
    /// A place has come whose cue does not stand yet: worth looking more often.
    [[nodiscard]] bool waits() const { return !m_ahead.empty(); }

private:
    struct Ahead {
        wire::PlaceNow place;
        Instant cameAt{};
        std::optional<std::uint64_t> sample; ///< of the frame after it, once that has come
    };
    [[nodiscard]] bool flows(Instant now) const;
    [[nodiscard]] bool isDue(const Ahead& ahead, std::optional<std::uint64_t> audibleUpTo, Instant now) const;
    void stand(const wire::PlaceNow& place);

    std::optional<std::uint32_t> m_stream;
    std::optional<Instant> m_lastFrame;
    std::optional<wire::PlaceNow> m_cue;
    std::deque<Ahead> m_ahead; ///< oldest first
    bool m_changed = false;
};

} // namespace vh
