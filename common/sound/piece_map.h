#pragma once
// Which sample of the leader's sound is heard at which sample that went into the ClockBridge: frames, concealments and
// silences were put in one behind the other, some shortened. Remembers the last few, as the bridge holds no more than
// that. Thread: one. Allocates nothing.
#include <array>
#include <cstddef>
#include <cstdint>

namespace vh
{

class PieceMap
{
public:
    /// `length` samples went in, from `begin` of the bridge's count on; they stand for the leader's [from, to).
    void add(double begin, std::size_t length, std::int64_t from, std::int64_t to);
    /// The leader's position that the bridge's count `given` stands for. Never less than it said before.
    std::int64_t positionAt(double given);
    void restart() { *this = {}; }

private:
    struct Piece {
        double begin = 0;
        double length = 0;
        std::int64_t from = 0;
        std::int64_t to = 0;
    };
    std::array<Piece, 8> m_pieces{};
    std::size_t m_added = 0;
    std::int64_t m_said = 0;
};

} // namespace vh
