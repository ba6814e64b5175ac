#pragma once
// What a desk hears in a very large class, in simulated time: 3,000 people, 20 lines a second at uneven moments, each
// with its number, and what other helpers do with them. Two shapes: nobody decides anything, so that all are still to
// be read at the end; or other helpers see to every line within seconds. Value; any one thread.
#include "common/base/clock.h"
#include "common/wire/to_client.h"

#include <map>
#include <random>

namespace vh::bench
{

inline constexpr int kDeskPeople = 3000;
inline constexpr double kDeskLinesPerSecond = 20;

class DeskLoad
{
public:
    enum class Shape { allWait, seenTo };
    DeskLoad(Shape shape, Instant start);

    /// What comes right after coming in.
    [[nodiscard]] std::vector<wire::ToClient> onComingIn() const;
    /// All that has come since the last call, in order.
    std::vector<wire::ToClient> until(Instant now);

    [[nodiscard]] std::uint64_t lines() const { return m_lines; }
    /// Numbers of the lines that are to be read now, and of those on the board, oldest first.
    [[nodiscard]] std::vector<std::uint64_t> toRead() const;
    [[nodiscard]] const std::vector<std::uint64_t>& board() const { return m_board; }
    /// By which a line's number is found again in what a desk shows.
    static std::string mark(std::uint64_t line);

private:
    enum class Step { claimed, goingUp, shown };
    void line(Instant at, std::vector<wire::ToClient>& out);
    void step(std::uint64_t line, Step step, Instant at, std::vector<wire::ToClient>& out);
    void lineLost(Instant at, std::vector<wire::ToClient>& out);

    Shape m_shape;
    std::mt19937 m_chance{41};
    Instant m_nextLine;
    Instant m_nextSeat;
    std::uint64_t m_lines = 0;
    std::uint64_t m_changes = 0;
    std::uint64_t m_seq = 0;
    std::map<std::uint64_t, wire::DeskItem> m_open;
    std::multimap<Instant, std::pair<std::uint64_t, Step>> m_due;
    std::vector<std::uint64_t> m_board;
    std::optional<std::uint32_t> m_away;
};

} // namespace vh::bench
