#include "common/script/valid.h"

#include "common/script/limits.h"
#include "common/script/marks.h"

#include <algorithm>
#include <array>

namespace vh
{

namespace
{

using Fault = std::optional<Error>;

Fault wrong(std::string code, std::string message, std::string where)
{
    return Error{std::move(code), std::move(message), std::move(where)};
}

enum class Presence { required, optional };

Fault textFault(std::string_view text, std::size_t most, LineBreaks breaks, Presence presence, const std::string& where)
{
    if (text.empty())
        return presence == Presence::required ? wrong("empty-text", "text is missing", where) : std::nullopt;
    if (isUtf8(text) && codePointCount(text) > most)
        return wrong("too-long", "more than " + std::to_string(most) + " characters", where);
    if (!isFitText(text, most, breaks))
        return wrong("bad-text", "not text as a script holds it", where);
    return std::nullopt;
}

Fault countFault(std::size_t count, std::size_t most, const std::string& where)
{
    if (count == 0)
        return wrong("empty-list", "nothing in it", where);
    if (count > most)
        return wrong("too-many", "more than " + std::to_string(most), where);
    return std::nullopt;
}

Fault roundsFault(const Step& step, bool inPause, const std::string& where)
{
    if (auto fault = countFault(step.rounds.size(), limits::kMaxRoundsPerStep, where + ".rounds"))
        return fault;
    for (std::size_t i = 0; i < step.rounds.size(); ++i) {
        const std::string path = where + ".rounds[" + std::to_string(i) + "].turns";
        const auto& turns = step.rounds[i].turns;
        if (auto fault = countFault(turns.size(), limits::kMaxTurnsPerRound, path))
            return fault;
        for (const Turn& turn : turns) {
            if (turn.kind > TurnKind::yours)
                return wrong("unknown-name", "no such kind of turn", path);
            if (turn.planned < limits::kMinTurn || turn.planned > limits::kMaxTurn)
                return wrong("out-of-range", "a turn lasts 0.5 to 600 seconds", path);
            if (inPause && turn.kind != TurnKind::listen)
                return wrong("pause-asks", "a pause asks nothing of anybody", path);
        }
    }
    return std::nullopt;
}

Fault pictureFault(const Picture& picture, const std::string& where)
{
    if (auto fault = pictureFileFault(picture.file))
        return wrong("picture-path", std::move(*fault), where + ".file");
    return textFault(picture.description, limits::kMaxDescription, LineBreaks::remove, Presence::required,
                     where + ".description");
}

Fault stepFault(const Step& step, bool inPause, const std::string& where)
{
    const Presence presence = inPause ? Presence::optional : Presence::required;
    if (auto fault = textFault(step.text, limits::kMaxText, LineBreaks::keep, presence, where + ".text"))
        return fault;
    if (auto fault = stretchesFault(step.text, step.stretches))
        return wrong("bad-mark", std::move(*fault), where + ".text");
    if (auto fault = textFault(step.note, limits::kMaxNote, LineBreaks::keep, Presence::optional, where + ".note"))
        return fault;
    if (step.picture)
        if (auto fault = pictureFault(*step.picture, where + ".picture"))
            return fault;
    if (step.optionalDearness &&
        (*step.optionalDearness < limits::kMinDearness || *step.optionalDearness > limits::kMaxDearness))
        return wrong("out-of-range", "dearness is 1 to 9", where + ".dearness");
    return roundsFault(step, inPause, where);
}

Fault sectionFault(const Section& section, const std::string& where)
{
    if (section.kind > SectionKind::closing)
        return wrong("unknown-name", "no such kind of section", where + ".kind");
    if (auto fault =
            textFault(section.title, limits::kMaxTitle, LineBreaks::remove, Presence::required, where + ".title"))
        return fault;
    if (auto fault = countFault(section.steps.size(), limits::kMaxStepsPerSection, where + ".steps"))
        return fault;
    for (std::size_t i = 0; i < section.steps.size(); ++i)
        if (auto fault = stepFault(section.steps[i], section.kind == SectionKind::pause,
                                   where + ".steps[" + std::to_string(i) + "]"))
            return fault;
    return std::nullopt;
}

Fault totalsFault(const ClassScript& script)
{
    std::size_t steps = 0;
    std::size_t turns = 0;
    std::size_t bytes = script.title.size() + script.theme.size() + script.language.size();
    for (const Section& section : script.sections) {
        steps += section.steps.size();
        bytes += section.title.size();
        for (const Step& step : section.steps) {
            bytes += step.text.size() + step.note.size();
            if (step.picture)
                bytes += step.picture->file.size() + step.picture->description.size();
            for (const Round& round : step.rounds)
                turns += round.turns.size();
        }
    }
    if (steps > limits::kMaxSteps)
        return wrong("too-many", "more than " + std::to_string(limits::kMaxSteps) + " steps", "sections");
    if (turns > limits::kMaxTurns)
        return wrong("too-many", "more than " + std::to_string(limits::kMaxTurns) + " turns", "sections");
    if (bytes > limits::kMaxTextBytes)
        return wrong("too-long", "more than 64 KiB of text", "sections");
    return std::nullopt;
}

bool isLetter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

} // namespace

std::optional<Error> faultOf(const ClassScript& script)
{
    if (auto fault = textFault(script.title, limits::kMaxTitle, LineBreaks::remove, Presence::required, "title"))
        return fault;
    if (auto fault = textFault(script.theme, limits::kMaxTitle, LineBreaks::remove, Presence::required, "theme"))
        return fault;
    if (!isLanguageTag(script.language))
        return wrong("language", "not a language tag", "language");
    if (script.plannedMinutes < 1 || script.plannedMinutes > limits::kMaxMinutes)
        return wrong("out-of-range", "a class lasts 1 to 120 minutes", "minutes");
    if (auto fault = countFault(script.sections.size(), limits::kMaxSections, "sections"))
        return fault;
    for (std::size_t i = 0; i < script.sections.size(); ++i)
        if (auto fault = sectionFault(script.sections[i], "sections[" + std::to_string(i) + "]"))
            return fault;
    return totalsFault(script);
}

bool isFitText(std::string_view text, std::size_t maxCodePoints, LineBreaks lineBreaks)
{
    return text.empty() || cleanLine(text, maxCodePoints, lineBreaks) == text;
}

std::optional<std::string> pictureFileFault(std::string_view file)
{
    if (file.empty())
        return "The picture has no file name.";
    if (!isFitText(file, limits::kMaxPictureFile, LineBreaks::remove))
        return "The file name is too long, or holds characters that file names do not have.";
    if (file.find('\\') != std::string_view::npos)
        return "The file name holds a backslash.";
    if (file.find(':') != std::string_view::npos)
        return "The file name holds a colon.";
    if (file.front() == '/')
        return "The file name begins at the root of the disk.";
    for (std::string_view rest = file; !rest.empty();) {
        const auto slash = rest.find('/');
        const std::string_view part = rest.substr(0, slash);
        if (part.empty() || part == "." || part == "..")
            return "A part of the file name is empty, \".\" or \"..\".";
        rest.remove_prefix(slash == std::string_view::npos ? rest.size() : slash + 1);
    }
    static constexpr std::array<std::string_view, 4> kEndings{".svg", ".png", ".jpg", ".jpeg"};
    if (std::ranges::none_of(kEndings, [&](std::string_view ending) { return file.ends_with(ending); }))
        return "The file name does not end as a picture's does.";
    return std::nullopt;
}

bool isLanguageTag(std::string_view tag)
{
    if (tag.empty() || tag.size() > limits::kMaxLanguage)
        return false;
    std::size_t inPart = 0;
    bool first = true;
    for (const char c : tag) {
        if (c == '-') {
            if (inPart < (first ? 2U : 1U))
                return false;
            first = false;
            inPart = 0;
            continue;
        }
        if (!isLetter(c) && (first || c < '0' || c > '9'))
            return false;
        if (++inPart > 8)
            return false;
    }
    return inPart >= (first ? 2U : 1U);
}

} // namespace vh
