#include "server/photos/errand.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <string_view>

namespace vh::photos
{

namespace
{

constexpr std::size_t kMostLine = 200;
constexpr std::size_t kMostWords = 200;

std::string_view textOf(std::span<const std::uint8_t> bytes)
{
    return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

/// The first line without its end, and how many bytes it took; nothing if there is none.
std::optional<std::string_view> firstLine(std::span<const std::uint8_t> bytes)
{
    const std::string_view head = textOf(bytes.first(std::min(bytes.size(), kMostLine)));
    const std::size_t end = head.find('\n');
    if (end == std::string_view::npos)
        return std::nullopt;
    return head.substr(0, end);
}

/// The next word of a line, taken off it.
std::string_view word(std::string_view& line)
{
    const std::size_t end = std::min(line.find(' '), line.size());
    const std::string_view taken = line.substr(0, end);
    line.remove_prefix(std::min(end + 1, line.size()));
    return taken;
}

template <class T>
std::optional<T> number(std::string_view text)
{
    T value{};
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || end != text.data() + text.size())
        return std::nullopt;
    return value;
}

template <class T>
void append(std::string& line, T value)
{
    std::array<char, 32> digits{};
    const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), value).ptr;
    if (!line.empty())
        line += ' ';
    line.append(digits.data(), end);
}

} // namespace

std::string errandLine(const Wish& wish)
{
    std::string line;
    append(line, wish.quarterTurns);
    for (const double share : {wish.cut.left, wish.cut.top, wish.cut.right, wish.cut.bottom})
        append(line, share);
    return line + '\n';
}

Result<Errand> readErrand(std::span<const std::uint8_t> in)
{
    const auto unreadable = [] { return fail("errand-unreadable", "This is no errand.", "line"); };
    const auto first = firstLine(in);
    if (!first)
        return unreadable();
    std::string_view line = *first;
    const auto turns = number<int>(word(line));
    std::array<double, 4> shares{};
    for (double& share : shares) {
        const auto read = number<double>(word(line));
        if (!read)
            return unreadable();
        share = *read;
    }
    if (!turns || !line.empty())
        return unreadable();
    return Errand{{*turns, {shares[0], shares[1], shares[2], shares[3]}}, in.subspan(first->size() + 1)};
}

std::vector<std::uint8_t> answerOf(const Result<Remade>& remade)
{
    std::string head;
    if (remade) {
        head = remade->format == Format::jpeg ? "jpeg" : "png";
        append(head, remade->size.width);
        append(head, remade->size.height);
        head += '\n';
    } else {
        head = "no " + remade.error().code + '\n' + remade.error().message;
    }
    std::vector<std::uint8_t> out(head.begin(), head.end());
    if (remade)
        out.insert(out.end(), remade->bytes.begin(), remade->bytes.end());
    return out;
}

Result<Remade> readAnswer(std::span<const std::uint8_t> out)
{
    const auto first = firstLine(out);
    if (!first)
        return tl::unexpected<Error>(unmade());
    const auto rest = out.subspan(first->size() + 1);
    std::string_view line = *first;
    const std::string_view kind = word(line);
    if (kind == "no" && !line.empty() && rest.size() <= kMostWords)
        return fail(std::string(line), std::string(textOf(rest)));
    const auto width = number<int>(word(line));
    const auto height = number<int>(word(line));
    const auto format = formatOf(rest);
    const bool said = (kind == "jpeg" && format == Format::jpeg) || (kind == "png" && format == Format::png);
    const auto fits = [](const std::optional<int>& edge) { return edge && *edge >= 1 && *edge <= kEdge; };
    if (!said || !line.empty() || !fits(width) || !fits(height) || rest.size() > kMostBytesOut)
        return tl::unexpected<Error>(unmade());
    return Remade{*format, {*width, *height}, {rest.begin(), rest.end()}};
}

Error unmade()
{
    return {
        "picture-unmade", "The picture could not be opened. Please open and save it once more, then send that.", {}};
}

} // namespace vh::photos
