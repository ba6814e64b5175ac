#pragma once
// The jitter buffer and what it plays: from frames as they come to an even stream of samples on the loudspeaker's
// clock. Belongs to the playback thread alone (VoicePlayer hands the frames over). All times are samples at 48 kHz, all
// positions samples since the stream's first frame. render() allocates, locks and logs nothing.
//
// The line is TCP: nothing is lost, all is late and then comes at once. So:
// - What is late is waited for (concealed for 100 ms, then silence) and then played: the delay grows by it.
// - More delay than the line needs is worked off where it is not heard: a little faster (at most 0.25 %), and quiet
//   frames shortened. Less than it needs is won the same way.
// - Beyond LineWatch::kMost behind the fastest frame, what is older is dropped at once.
// - Frames missing between others (a relay dropped them, or datagrams) are concealed, up to 100 ms; a gap after a frame
//   of silence is a mute, and silence.
#include "common/sound/clock_bridge.h"
#include "common/sound/line_watch.h"
#include "common/sound/opus_codec.h"
#include "common/sound/packet_store.h"
#include "common/sound/piece_map.h"

namespace vh
{

class Playout
{
public:
    struct Counts {
        std::uint64_t interruptions = 0;    ///< times that sound stopped because nothing was there
        std::uint64_t waitedSamples = 0;    ///< in them
        std::uint64_t lostSamples = 0;      ///< of the leader's sound, never heard
        std::uint64_t concealedSamples = 0; ///< made up by the decoder
        std::uint64_t lateFrames = 0;       ///< came after their time had been filled
        std::uint64_t skips = 0;            ///< times that sound was dropped to catch up
        std::uint64_t shortened = 0;        ///< quiet frames made shorter
        std::uint64_t lengthened = 0;
    };

    void put(const SoundPacket& packet);
    void render(std::span<float> out);

    [[nodiscard]] const Counts& counts() const { return m_counts; }
    [[nodiscard]] std::uint32_t stream() const { return m_stream; }
    /// Count of the leader's stream after the last sample handed out.
    std::uint64_t heardUpTo();
    /// How long sound is held here beyond the fastest frame's way, now; and how long it is meant to be.
    [[nodiscard]] double held() const;
    [[nodiscard]] double allowance() const { return m_watch.allowance(); }
    [[nodiscard]] double speed() const { return m_bridge.speed(); }
    /// Nothing to play and nothing fading.
    [[nodiscard]] bool idle() const { return m_idle; }

private:
    using Piece = std::span<const float>;

    void begin(const SoundPacket& packet);
    void everySecond();
    Piece nextPiece();
    Piece putOut(std::size_t length, std::int64_t from, std::int64_t to);
    Piece waitingPiece(std::size_t length);
    Piece gapPiece(const PacketStore::Entry& next, double ahead);
    Piece framePiece(const PacketStore::Entry& entry);
    void resume(std::int64_t at);
    void catchUp();
    void shorten();
    [[nodiscard]] bool quietNow() const;
    /// Where the decoder would be in the leader's sound if nothing had ever been late.
    [[nodiscard]] double due() const { return static_cast<double>(m_at) + m_waited; }
    /// Output samples from a frame's count to its being heard, if the sample at `position` were next.
    [[nodiscard]] double delayOf(double position) const
    {
        return static_cast<double>(m_rendered) + m_bridge.lag() - position;
    }

    PacketStore m_store;
    LineWatch m_watch;
    VoiceDecoder m_decoder;
    ClockBridge m_bridge;
    PieceMap m_map;
    Counts m_counts;

    bool m_started = false;
    bool m_idle = true;
    std::uint32_t m_stream = 0;
    std::uint64_t m_base = 0;     ///< the stream's count at position 0
    std::uint64_t m_rendered = 0; ///< the playback clock
    std::uint64_t m_secondAt = 0;
    std::int64_t m_at = 0;    ///< position of the next sample to decode
    double m_waited = 0;      ///< given out since without moving m_at; below 0 while starting
    int m_emptyPieces = 0;    ///< in a row, while waiting
    bool m_wasSilent = false; ///< the last frame was silence: what follows a gap then is the end of a mute
    bool m_fadeIn = false;
    bool m_resized = false; ///< the last frame was shortened or lengthened
    float m_meanSquare = 0;
    float m_loud = 0;   ///< of the louder frames of the last while
    double m_drift = 0; ///< learnt, as a speed
    std::array<float, kSoundFrame> m_frame{};
    std::array<float, 240> m_tail{}; ///< goes out while the first frame after a jump comes in
};

} // namespace vh
