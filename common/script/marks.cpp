#include "common/script/marks.h"

#include "common/base/text.h"
#include "common/script/limits.h"

namespace vh
{

namespace
{

/// The last few words before a mistake, so that the reader of the message finds it.
std::string tailOf(std::string_view text)
{
    constexpr std::size_t kBytes = 24;
    if (text.size() <= kBytes)
        return std::string(text);
    text.remove_prefix(text.size() - kBytes);
    while (!text.empty() && (static_cast<unsigned char>(text.front()) & 0xC0) == 0x80)
        text.remove_prefix(1);
    return std::string(text);
}

bool isBorder(std::string_view text, std::size_t at)
{
    return at <= text.size() && (at == text.size() || (static_cast<unsigned char>(text[at]) & 0xC0) != 0x80);
}

bool isSpecial(char c)
{
    return c == '<' || c == '>' || c == '\\';
}

} // namespace

Result<MarkedText> readMarks(std::string_view marked)
{
    MarkedText result;
    std::optional<std::size_t> open;
    const auto bad = [&](std::size_t at, std::string message) {
        return fail("bad-mark", std::move(message), tailOf(marked.substr(0, at + 1)));
    };
    for (std::size_t i = 0; i < marked.size(); ++i) {
        const char c = marked[i];
        if (c == '\\') {
            if (i + 1 == marked.size() || !isSpecial(marked[i + 1]))
                return bad(i, "A backslash stands alone.");
            result.text += marked[++i];
        } else if (c == '<') {
            if (open)
                return bad(i, "A second < stands inside a mark.");
            open = result.text.size();
        } else if (c == '>') {
            if (!open)
                return bad(i, "A > stands without its <.");
            const Stretch stretch{static_cast<std::uint32_t>(*open), static_cast<std::uint32_t>(result.text.size())};
            result.stretches.push_back(stretch);
            open.reset();
        } else {
            result.text += c;
        }
    }
    if (open)
        return bad(marked.size() - 1, "A < is never closed.");
    if (auto fault = stretchesFault(result.text, result.stretches))
        return bad(marked.size() - 1, std::move(*fault));
    return result;
}

std::string writeMarks(std::string_view text, const std::vector<Stretch>& stretches)
{
    std::string marked;
    auto next = stretches.begin();
    bool inside = false;
    for (std::size_t i = 0; i <= text.size(); ++i) {
        if (inside && next->end == i) {
            marked += '>';
            inside = false;
            ++next;
        }
        if (!inside && next != stretches.end() && next->begin == i) {
            marked += '<';
            inside = true;
        }
        if (i == text.size())
            break;
        if (isSpecial(text[i]))
            marked += '\\';
        marked += text[i];
    }
    return marked;
}

std::optional<std::string> stretchesFault(std::string_view text, const std::vector<Stretch>& stretches)
{
    if (stretches.size() > limits::kMaxStretches)
        return "There are more than " + std::to_string(limits::kMaxStretches) + " marks in one text.";
    std::size_t free = 0;
    for (const Stretch& stretch : stretches) {
        if (stretch.begin < free || stretch.end < stretch.begin || !isBorder(text, stretch.begin) ||
            !isBorder(text, stretch.end))
            return "Marks overlap, or lie outside the text.";
        const std::string_view inside = text.substr(stretch.begin, stretch.end - stretch.begin);
        if (inside.empty())
            return "There is nothing between < and >.";
        if (inside.find_first_of(" \n") != std::string_view::npos)
            return "A mark holds more than one word.";
        if (codePointCount(inside) > limits::kMaxStretch)
            return "A mark holds more than " + std::to_string(limits::kMaxStretch) + " letters.";
        free = stretch.end;
    }
    return std::nullopt;
}

} // namespace vh
