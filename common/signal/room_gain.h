#pragma once
// Whether a microphone's gain stays as it is when somebody speaks, heard from the room alone. The band under all voices
// (low_band.h) holds nothing but the room, also while a voice sounds: where it is lower under the voice than in the
// pauses on both sides, a gain is ridden; where it is there under every voice and gone in every pause, a gate opens and
// closes. And a room that is softer, in this band and as heard (A-weighted) alike, ever since the first voice than
// before it: a gain that was turned down and stays. Needs no loudspeaker, and no help of the person. Frames of 10 ms;
// allocates nothing. Thread: one.
// The limits are from trial on the proving ground (tests/bench/bench_check.cpp), no published source.
#include "common/signal/voice_frame.h"

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>

namespace vh
{

class RoomGain
{
public:
    enum class Finding : std::uint8_t { nothing, rides, gates };

    /// A frame of the room before anybody was asked to speak.
    void addRoom(const VoiceFrame& frame) { take(frame, true); }
    /// A frame of what came then: voices and pauses.
    void add(const VoiceFrame& frame) { take(frame, false); }

    /// How much lower the low band was under voices than beside them, dB, over spells of voice between pauses of a
    /// second.
    struct Under {
        std::size_t spells = 0;
        float meanDb = 0; ///< longer spells count for more
        float medianDb = 0;
        float mostDb = 0;
        float restlessDb = 0; ///< how much the low band differs from one pause to the next
    };
    [[nodiscard]] Under under() const;
    /// How much softer the room is in all pauses than it was before, dB.
    struct Since {
        float lowDb = 0;
        float audibleDb = 0;
        bool steady = false; ///< the room before was even for half of the time
    };
    [[nodiscard]] std::optional<Since> since() const;
    [[nodiscard]] Finding finding() const;

private:
    static constexpr std::size_t kSpells = 12;
    static constexpr std::size_t kVoicePieces = 80;
    static constexpr std::size_t kBesidePieces = 12;
    static constexpr std::size_t kRoomPieces = 30;
    static constexpr std::size_t kPausePieces = 120;

    /// 100 ms of one kind of frames, dB.
    struct Piece {
        float lowDb = 0;
        float audibleDb = 0;
    };
    /// The last so many.
    template <std::size_t Size>
    struct Pieces {
        std::array<Piece, Size> all{};
        std::size_t count = 0; ///< ever
        void push(const Piece& piece) { all[count++ % Size] = piece; }
        [[nodiscard]] std::size_t size() const { return count < Size ? count : Size; }
    };
    struct Spell {
        float underDb = 0;
        float weight = 0;
        float restlessDb = 0;
    };

    void take(const VoiceFrame& frame, bool room);
    /// The piece before, when it is plain that the run has gone on behind it.
    std::optional<Piece> cut(const VoiceFrame& frame);
    void takeVoice(const Piece& piece);
    void takePause(const Piece& piece, bool room);
    [[nodiscard]] std::optional<Spell> spellThatIsOn() const;

    bool m_voiced = false; ///< the run of frames that is on, and how long it is
    std::size_t m_run = 0;
    double m_low = 0; ///< of the piece that is being filled
    double m_audible = 0;
    std::size_t m_filled = 0;
    std::optional<Piece> m_waiting;

    bool m_pauseIsOver = true;
    Pieces<kVoicePieces> m_under; ///< the spell that is on
    Pieces<kBesidePieces> m_before;
    Pieces<kBesidePieces> m_beside; ///< the pause that is on, or was last
    std::array<Spell, kSpells> m_spells{};
    std::size_t m_spellCount = 0; ///< ever
    Pieces<kRoomPieces> m_room;
    Pieces<kPausePieces> m_pauses;
};

} // namespace vh
