#include "tests/bench/desk_load.h"

#include "common/base/text.h"

#include <array>
#include <cstdio>

namespace vh::bench
{

namespace
{

constexpr std::size_t kPiece = 100; // of a long list, as the relay sends it

PersonId personOf(std::uint32_t seat)
{
    std::array<char, 33> hex{};
    std::snprintf(hex.data(), hex.size(), "%032x", seat + 1);
    return *PersonId::fromHex(hex.data());
}

std::string nameOf(std::uint32_t seat)
{
    static constexpr std::array kFirst{"Edda", "Rolf", "Kofi", "Marta", "Jonas",
                                       "Ruth", "Lena", "Amir", "Ioana", "Piet"};
    static constexpr std::array kLast{"Lindqvist", "Okafor", "Brandt", "Silva", "Novak", "Haddad", "Moreau"};
    return std::string(kFirst[seat % kFirst.size()]) + " " + kLast[seat / 10 % kLast.size()] + " " +
           std::to_string(seat);
}

wire::SeatName seatOf(std::uint32_t seat, bool here)
{
    return {seat, personOf(seat), nameOf(seat), here, 0, Addressed::notAtAll};
}

/// Mostly short, one in twelve as long as a line may be; not only in Latin letters.
std::string wordsOf(std::mt19937& chance)
{
    static const std::array<std::string, 6> kWords{
        "the slugs have eaten my beans again ",
        "is it the same as on Tuesday? ",
        "\u0414\u043E\u0431\u0440\u043E\u0435 \u0443\u0442\u0440\u043E \u0432\u0441\u0435\u043C ",
        "\u0645\u0631\u062D\u0628\u0627 \u0628\u0643\u0645 ",
        "\U0001F44B\U0001F3FD good morning ",
        "my neighbour could hear me through the wall today "};
    const std::size_t length = chance() % 12 == 0 ? 480 : 12 + chance() % 90;
    std::string words;
    while (codePointCount(words) < length)
        words += kWords[chance() % kWords.size()];
    while (codePointCount(words) > length)
        words.resize(words.find_last_of(' '));
    return words;
}

Millis gapOf(std::mt19937& chance)
{
    std::exponential_distribution<double> seconds(kDeskLinesPerSecond);
    return Millis{static_cast<std::int64_t>(seconds(chance) * 1000)};
}

} // namespace

DeskLoad::DeskLoad(Shape shape, Instant start)
    : m_shape(shape), m_nextLine(start), m_nextSeat(start + std::chrono::seconds(1))
{
}

std::string DeskLoad::mark(std::uint64_t line)
{
    return "[" + std::to_string(line) + "]";
}

std::vector<wire::ToClient> DeskLoad::onComingIn() const
{
    std::vector<wire::ToClient> out;
    wire::Welcome welcome;
    welcome.groupName = "The largest group";
    welcome.name = "Kim";
    welcome.role = Role::moderator;
    welcome.here = kDeskPeople;
    welcome.helpers = 3;
    out.emplace_back(welcome);
    for (std::uint32_t seat = 0; seat < kDeskPeople;) {
        wire::Seats piece;
        piece.whole = seat == 0;
        for (std::size_t i = 0; i < kPiece && seat < kDeskPeople; ++i, ++seat)
            piece.seats.push_back(seatOf(seat, true));
        out.emplace_back(piece);
    }
    out.emplace_back(wire::OnDesk{true, {}});
    out.emplace_back(wire::DeskNow{});
    return out;
}

std::vector<wire::ToClient> DeskLoad::until(Instant now)
{
    std::vector<wire::ToClient> out;
    for (; m_nextLine <= now; m_nextLine += gapOf(m_chance))
        line(m_nextLine, out);
    while (!m_due.empty() && m_due.begin()->first <= now) {
        const auto [at, what] = *m_due.begin();
        m_due.erase(m_due.begin());
        step(what.first, what.second, at, out);
    }
    for (; m_nextSeat <= now; m_nextSeat += std::chrono::seconds(1))
        lineLost(m_nextSeat, out);
    return out;
}

void DeskLoad::line(Instant at, std::vector<wire::ToClient>& out)
{
    const auto seat = static_cast<std::uint32_t>(m_chance() % kDeskPeople);
    wire::DeskItem item;
    item.item = ++m_lines;
    item.change = ++m_changes;
    item.person = personOf(seat);
    item.name = nameOf(seat);
    item.text = mark(m_lines) + " " + wordsOf(m_chance);
    item.at = at;
    m_open[item.item] = item;
    out.emplace_back(wire::OnDesk{false, {item}});
    if (m_shape == Shape::seenTo) {
        const Millis begins{2000 + m_chance() % 6000};
        const Millis reads{1000 + m_chance() % 3000};
        m_due.emplace(at + begins, std::pair(item.item, Step::claimed));
        m_due.emplace(at + begins + reads, std::pair(item.item, Step::goingUp));
        m_due.emplace(at + begins + reads + wire::kGoesUpAfter, std::pair(item.item, Step::shown));
    }
}

void DeskLoad::step(std::uint64_t line, Step step, Instant at, std::vector<wire::ToClient>& out)
{
    if (step == Step::claimed) {
        out.emplace_back(wire::Claimed{line, "Lea"});
        return;
    }
    wire::DeskItem& item = m_open.at(line);
    item.change = ++m_changes;
    item.by = "Lea";
    item.state = step == Step::shown ? wire::DeskState::shown : wire::DeskState::goingUp;
    item.due = step == Step::shown ? std::nullopt : std::optional(at + wire::kGoesUpAfter);
    if (step == Step::goingUp)
        out.emplace_back(wire::Claimed{line, {}});
    out.emplace_back(wire::OnDesk{false, {item}});
    if (step == Step::goingUp)
        return;
    wire::BoardItem shown;
    shown.item = line;
    shown.change = item.change;
    shown.name = item.name;
    shown.text = item.text;
    shown.at = item.at;
    out.emplace_back(wire::Board{++m_seq, {shown}});
    m_board.push_back(line);
    m_open.erase(line);
}

/// Once a second somebody's line goes, or comes back.
void DeskLoad::lineLost(Instant, std::vector<wire::ToClient>& out)
{
    const bool back = m_away.has_value();
    const std::uint32_t seat = back ? *m_away : static_cast<std::uint32_t>(m_chance() % kDeskPeople);
    m_away = back ? std::nullopt : std::optional(seat);
    out.emplace_back(wire::Seats{false, {seatOf(seat, back)}});
    out.emplace_back(wire::Here{static_cast<std::uint32_t>(kDeskPeople - (back ? 0 : 1)), 3, 0});
}

std::vector<std::uint64_t> DeskLoad::toRead() const
{
    std::vector<std::uint64_t> lines;
    for (const auto& [line, item] : m_open)
        if (item.state == wire::DeskState::held)
            lines.push_back(line);
    return lines;
}

} // namespace vh::bench
