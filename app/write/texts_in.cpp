#include "app/write/texts_in.h"

#include "common/base/text.h"
#include "common/script/shapes.h"

#include <algorithm>

namespace vh::write
{

namespace
{

constexpr std::string_view kSpace = " \t\r\n\f\v";

std::string_view trimmed(std::string_view text)
{
    const std::size_t begin = text.find_first_not_of(kSpace);
    return begin == std::string_view::npos ? std::string_view()
                                           : text.substr(begin, text.find_last_not_of(kSpace) - begin + 1);
}

std::vector<std::string_view> linesOf(std::string_view text)
{
    std::vector<std::string_view> lines;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        lines.push_back(trimmed(text.substr(0, end)));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return lines;
}

std::vector<std::string> parted(const std::vector<std::string_view>& lines, bool everyLine)
{
    std::vector<std::string> texts;
    bool isNew = true;
    for (const std::string_view line : lines) {
        if (line.empty()) {
            isNew = true;
            continue;
        }
        if (isNew || everyLine)
            texts.emplace_back(line);
        else
            texts.back().append("\n").append(line);
        isNew = false;
    }
    return texts;
}

void put(Step& step, const std::string& text)
{
    step.text = text;
    step.stretches.clear();
}

} // namespace

std::vector<std::string> textsIn(std::string_view copied, SectionKind kind)
{
    const auto lines = linesOf(trimmed(copied));
    const bool isParted = std::any_of(lines.begin(), lines.end(), [](std::string_view line) { return line.empty(); });
    const bool inLines = kind == SectionKind::phrases || kind == SectionKind::categoryNaming;
    return parted(lines, !isParted && inLines);
}

std::optional<Edited> withTexts(const ClassScript& script, Spot spot, const std::vector<std::string>& texts)
{
    const Step* first = stepAt(script, spot);
    if (!first || !isToWrite(*first) || texts.empty())
        return std::nullopt;
    Edited all{script, spot};
    auto text = texts.begin();
    for (std::optional<Spot> at = spot; at && text != texts.end(); at = stepAfter(all.script, *at)) {
        Step& step = *stepAt(all.script, *at);
        if (!isToWrite(step))
            continue;
        put(step, *text++);
        all.spot = *at;
    }
    for (; text != texts.end(); ++text) {
        Step more;
        more.rounds = stepAt(all.script, all.spot)->rounds;
        put(more, *text);
        auto& steps = all.script.sections[static_cast<std::size_t>(all.spot.section)].steps;
        steps.insert(steps.begin() + ++all.spot.step, std::move(more));
    }
    return all;
}

} // namespace vh::write
