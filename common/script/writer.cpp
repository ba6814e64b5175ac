#include "common/script/writer.h"

#include "common/script/marks.h"

#include <algorithm>
#include <fmt/format.h>

namespace vh
{

namespace
{

bool isPlainCharacter(char c)
{
    constexpr std::string_view kSafe = " ,.!?'()<>-/";
    const auto byte = static_cast<unsigned char>(c);
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || byte >= 0x80 ||
           kSafe.find(c) != std::string_view::npos;
}

constexpr std::string_view kLineSeparator = "\xE2\x80\xA8";      // U+2028
constexpr std::string_view kParagraphSeparator = "\xE2\x80\xA9"; // U+2029

bool holdsSeparator(std::string_view text)
{
    return text.find(kLineSeparator) != std::string_view::npos ||
           text.find(kParagraphSeparator) != std::string_view::npos;
}

/// Text that needs no quotes: begins with a letter and holds nothing that YAML reads otherwise.
bool isPlain(std::string_view text)
{
    const char first = text.empty() ? ' ' : text.front();
    const bool letter = (first >= 'a' && first <= 'z') || (first >= 'A' && first <= 'Z') || first == '<';
    return letter && text != "null" && text != "Null" && text != "NULL" && !holdsSeparator(text) &&
           std::ranges::all_of(text, isPlainCharacter);
}

std::string inQuotes(std::string_view text)
{
    std::string result = "\"";
    while (!text.empty()) {
        std::size_t taken = 1;
        if (text.starts_with(kLineSeparator) || text.starts_with(kParagraphSeparator)) {
            result += text.starts_with(kLineSeparator) ? "\\u2028" : "\\u2029";
            taken = kLineSeparator.size();
        } else if (text.front() == '\n') {
            result += "\\n";
        } else {
            if (text.front() == '"' || text.front() == '\\')
                result += '\\';
            result += text.front();
        }
        text.remove_prefix(taken);
    }
    return result + '"';
}

/// Several lines as a block are pleasant to read; lines that end in spaces or begin with one are safer in quotes.
bool isBlock(std::string_view text)
{
    return text.find('\n') != std::string_view::npos && text.find(" \n") == std::string_view::npos &&
           text.find("\n ") == std::string_view::npos && !holdsSeparator(text);
}

std::string asBlock(std::string_view text, int indent)
{
    std::string result = "|-";
    while (true) {
        const auto end = text.find('\n');
        const std::string_view line = text.substr(0, end);
        result += '\n';
        if (!line.empty())
            result.append(static_cast<std::size_t>(indent), ' ').append(line);
        if (end == std::string_view::npos)
            return result;
        text.remove_prefix(end + 1);
    }
}

std::string value(std::string_view text, int indent)
{
    if (isPlain(text))
        return std::string(text);
    return isBlock(text) ? asBlock(text, indent) : inQuotes(text);
}

std::string secondsText(Millis length)
{
    const auto whole = length.count() / 1000;
    const auto rest = length.count() % 1000;
    if (rest == 0)
        return fmt::format("{}", whole);
    std::string text = fmt::format("{}.{:03}", whole, rest);
    return text.substr(0, text.find_last_not_of('0') + 1);
}

std::string roundsText(const std::vector<Round>& rounds, int indent)
{
    std::string out = fmt::format("{:{}}rounds:\n", "", indent);
    for (auto round = rounds.begin(); round != rounds.end();) {
        const auto next = std::find_if(round, rounds.end(), [&](const Round& other) { return other != *round; });
        std::string turns;
        for (const Turn& turn : round->turns)
            turns += fmt::format("{}{} {}", turns.empty() ? "" : ", ", nameOf(turn.kind), secondsText(turn.planned));
        out += fmt::format("{:{}}- turns: [{}]\n", "", indent + 2, turns);
        if (round->moreVoice)
            out += fmt::format("{:{}}moreVoice: yes\n", "", indent + 4);
        if (next - round > 1)
            out += fmt::format("{:{}}times: {}\n", "", indent + 4, next - round);
        round = next;
    }
    return out;
}

std::string stepText(const Step& step, bool sharedRounds)
{
    std::string out = "      - ";
    const auto line = [&](std::string_view key, std::string_view text) {
        out += fmt::format("{}: {}\n        ", key, text);
    };
    line("text", value(writeMarks(step.text, step.stretches), 10));
    if (step.picture) {
        out += "picture:\n";
        out += fmt::format("          file: {}\n", value(step.picture->file, 0));
        out += fmt::format("          description: {}\n        ", value(step.picture->description, 0));
    }
    if (!step.note.empty())
        line("note", value(step.note, 10));
    if (step.optionalDearness)
        line("dearness", fmt::format("{}", *step.optionalDearness));
    out.erase(out.find_last_not_of(' ') + 1);
    return sharedRounds ? out : out + roundsText(step.rounds, 8);
}

} // namespace

std::string writeClassScript(const ClassScript& script)
{
    std::string out =
        fmt::format("title: {}\ntheme: {}\nlanguage: {}\nminutes: {}\nsections:\n", value(script.title, 0),
                    value(script.theme, 0), value(script.language, 0), script.plannedMinutes);
    for (const Section& section : script.sections) {
        out += fmt::format("\n  - kind: {}\n    title: {}\n", nameOf(section.kind), value(section.title, 0));
        const auto& steps = section.steps;
        const bool shared = std::ranges::all_of(steps, [&](const Step& s) { return s.rounds == steps.front().rounds; });
        if (shared)
            out += roundsText(steps.front().rounds, 4);
        out += "    steps:\n";
        for (const Step& step : steps)
            out += stepText(step, shared);
    }
    return out;
}

} // namespace vh
