#include "app/write/remarks.h"

#include "app/write/marked_text.h"
#include "common/script/limits.h"
#include "common/script/shapes.h"
#include "common/script/valid.h"

#include <fmt/format.h>

#include <algorithm>

namespace vh::write
{

namespace
{

std::string oneLine(const std::string& text)
{
    return tidied(MarkedText{text, {}}, LineBreaks::remove).text;
}

Remark fault(std::string code, std::string why, Spot spot)
{
    Remark remark;
    remark.kind = Remark::Kind::fault;
    remark.code = std::move(code);
    remark.why = std::move(why);
    remark.spot = spot;
    return remark;
}

/// A class that has nothing wrong but what the section has.
ClassScript around(const Section& section)
{
    return {"A", "A", "en", 1, {section}};
}

std::string sentenceOf(const Error& error, std::string_view what)
{
    return fmt::format("{}: {}.", what, error.message);
}

void classFaults(const ClassScript& script, std::vector<Remark>& all)
{
    const Section good{
        SectionKind::phrases, "A", {{"A", {}, {}, {}, {{false, {{TurnKind::listen, Millis{1000}}}}}, {}}}};
    const auto ask = [&](ClassScript only, std::string_view what, std::string_view missing) {
        if (const auto error = faultOf(only))
            all.push_back(
                fault(error->code, error->code == "empty-text" ? std::string(missing) : sentenceOf(*error, what), {}));
    };
    ClassScript only = around(good);
    only.title = script.title;
    ask(only, "The title", "The class has no title yet: it is what people see.");
    only = around(good);
    only.theme = script.theme;
    ask(only, "The theme", "The class has no theme yet: a word or two.");
    if (!isLanguageTag(script.language))
        all.push_back(
            fault("language", fmt::format("\"{}\" names no language; en, de or pt-BR would.", script.language), {}));
    only = around(good);
    only.plannedMinutes = script.plannedMinutes;
    ask(only, "The minutes", {});
    if (script.sections.empty())
        all.push_back(fault("empty-list", "The class has no part yet.", {}));
}

std::string stepWords(const Error& error)
{
    if (error.where.ends_with(".description") && error.code == "empty-text")
        return "The picture has no description yet: those who do not see it have nothing of it.";
    if (error.where.ends_with(".description"))
        return sentenceOf(error, "The picture's description");
    if (error.where.ends_with(".note"))
        return sentenceOf(error, "The note");
    if (error.code == "pause-asks")
        return "A pause asks nothing of anybody: it has only listen turns.";
    return sentenceOf(error, "This step");
}

Remark stepFault(const Error& error, Spot spot)
{
    Remark remark = fault(error.code, stepWords(error), spot);
    remark.ofPicture = error.where.find(".picture") != std::string::npos;
    return remark;
}

void sectionFaults(const Section& section, int index, std::vector<Remark>& all)
{
    Section bare{section.kind, section.title, {}};
    Section named{section.kind, "A", {}};
    bool first = true;
    for (std::size_t i = 0; i < section.steps.size(); ++i) {
        named.steps = {section.steps[i]};
        if (const auto error = faultOf(around(named)))
            all.push_back(stepFault(*error, {index, static_cast<int>(i)}));
        else if (first) {
            bare.steps = named.steps;
            first = false;
        }
    }
    if (section.steps.empty()) {
        Remark remark = fault("empty-list", "There is no step in this part.", {index, -1});
        remark.leaveOut = true;
        all.push_back(std::move(remark));
    }
    if (!first || section.title.empty())
        if (const auto error = section.title.empty() ? Error{"empty-text", {}, {}} : faultOf(around(bare)))
            all.push_back(fault(error->code,
                                section.title.empty() ? "This part has no title yet: it is what people see."
                                                      : sentenceOf(*error, "The title of this part"),
                                {index, -1}));
    if (section.steps.size() > limits::kMaxStepsPerSection)
        all.push_back(fault("too-many",
                            fmt::format("There are more than {} steps in this part.", limits::kMaxStepsPerSection),
                            {index, -1}));
}

/// What a review says of a step whose text is not there yet.
bool isOfText(FindingKind kind)
{
    return kind != FindingKind::noReadyTurn && kind != FindingKind::vowelTooLong &&
           kind != FindingKind::pictureNotDescribed;
}

Remark adviceOf(const Finding& finding)
{
    Remark remark;
    remark.code = nameOf(finding.kind);
    remark.why = finding.why;
    remark.spot = {finding.section ? static_cast<int>(*finding.section) : -1,
                   finding.step ? static_cast<int>(*finding.step) : -1};
    remark.begin = finding.begin;
    remark.end = finding.end;
    remark.finding = finding;
    return remark;
}

} // namespace

ClassScript tidied(const ClassScript& script)
{
    ClassScript tidy = script;
    tidy.title = oneLine(tidy.title);
    tidy.theme = oneLine(tidy.theme);
    tidy.language = oneLine(tidy.language);
    for (Section& section : tidy.sections) {
        section.title = oneLine(section.title);
        for (Step& step : section.steps) {
            MarkedText text = tidied(MarkedText{step.text, step.stretches}, LineBreaks::keep);
            step.text = std::move(text.text);
            step.stretches = std::move(text.stretches);
            if (step.text.empty() && section.kind != SectionKind::pause)
                step.text = kToWrite;
            step.note = tidied(MarkedText{step.note, {}}, LineBreaks::keep).text;
            if (step.picture)
                step.picture->description = oneLine(step.picture->description);
        }
    }
    return tidy;
}

std::vector<Remark> remarksOf(const ClassScript& tidy, const ReviewRules& rules)
{
    std::vector<Remark> all;
    classFaults(tidy, all);
    for (std::size_t i = 0; i < tidy.sections.size(); ++i)
        sectionFaults(tidy.sections[i], static_cast<int>(i), all);
    if (all.empty())
        if (const auto error = faultOf(tidy))
            all.push_back(fault(error->code, sentenceOf(*error, "The class as a whole"), {}));
    for (const Finding& finding : review(tidy, rules).findings) {
        const Remark advice = adviceOf(finding);
        const Step* step = stepAt(tidy, advice.spot);
        if (finding.kind == FindingKind::leftToWrite || (step && isToWrite(*step) && isOfText(finding.kind)))
            continue; // toWriteOf() counts them
        // Said better by the review where it says the same: it can mend it.
        if (finding.kind == FindingKind::pauseAsks)
            std::erase_if(all,
                          [&](const Remark& other) { return other.spot == advice.spot && other.code == advice.code; });
        if (finding.kind != FindingKind::pictureNotDescribed)
            all.push_back(advice);
    }
    // The class as a whole comes first where it is a fault, last where it is advice.
    const auto place = [](const Remark& remark) {
        const bool whole = remark.spot.section < 0;
        return std::pair(whole && remark.kind == Remark::Kind::advice ? 1 : 0,
                         std::pair(remark.spot.section, remark.spot.step));
    };
    std::stable_sort(all.begin(), all.end(), [&](const Remark& a, const Remark& b) { return place(a) < place(b); });
    return all;
}

ClassScript mended(const ClassScript& tidy, const Remark& remark)
{
    if (remark.leaveOut)
        if (auto without = edited(tidy, remark.spot, Structure::remove))
            return std::move(without->script);
    return remark.finding ? withMend(tidy, *remark.finding) : tidy;
}

std::vector<Spot> toWriteOf(const ClassScript& script)
{
    std::vector<Spot> all;
    for (auto spot = stepAfter(script, {}); spot; spot = stepAfter(script, *spot))
        if (isToWrite(*stepAt(script, *spot)))
            all.push_back(*spot);
    return all;
}

} // namespace vh::write
