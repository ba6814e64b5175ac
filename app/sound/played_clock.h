#pragma once
// What of a stream is audible at a moment. The output's thread notes every piece that it hands over: when, how long
// until it sounds, and how far the stream has come with it. The GUI thread asks. Between them no locks. Moments are
// microseconds of any one steady clock.
//
// A device plays evenly, while its word on its own latency wavers by some milliseconds: so what is kept is the moment
// at which the count of played samples was zero, smoothed; a change of more than kJump is believed at once (a device
// that ran dry). Pieces are looked up by their place in what was played: where the stream jumps, what is audible jumps
// when the piece behind the jump sounds, not when it is handed over.
#include "app/sound/spsc_queue.h"
#include "common/sound/voice_player.h"

#include <atomic>
#include <chrono>
#include <cstdint>
#include <deque>

namespace vh::sound
{

class PlayedClock
{
public:
    using Micros = std::chrono::microseconds;
    static constexpr Micros kJump{50'000};
    static constexpr double kSmoothing = 1.0 / 16; ///< per piece: about a third of a second
    static constexpr int kRateHz = 48'000;

    /// While neither thread runs: another device.
    void restart();
    /// Output's thread. `end`: how far the stream has come with the last of these samples.
    void note(Micros now, std::size_t samples, Micros untilHeard, HeardUpTo end) noexcept;
    /// GUI thread: how far the stream has been heard; stream and sample 0 before the first of it sounds. Within one
    /// stream it never goes back.
    [[nodiscard]] HeardUpTo heardUpTo(Micros now);
    /// Any thread: as told with the last piece.
    [[nodiscard]] Micros latency() const { return Micros(m_latency.load(std::memory_order_relaxed)); }

private:
    struct Piece {
        std::uint64_t playedEnd = 0; ///< samples since restart()
        HeardUpTo end;
    };

    SpscQueue<Piece, 512> m_queue; ///< about 10 s of pieces; while nobody asks for longer, new ones are dropped
    std::atomic<std::int64_t> m_zero{0};
    std::atomic<bool> m_any{false};
    std::atomic<std::int64_t> m_latency{0};
    std::uint64_t m_played = 0; ///< the output thread's
    double m_smoothZero = 0;    ///< likewise
    std::deque<Piece> m_pieces; ///< GUI thread's: not wholly heard yet
    HeardUpTo m_before;         ///< at the end of the last piece that was wholly heard
    HeardUpTo m_last;           ///< as said last
};

} // namespace vh::sound
