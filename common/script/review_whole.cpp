// The class as a whole: water, order, time, cautions, sentences that come twice.
#include "common/lexicon/text_words.h"
#include "common/script/review_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

namespace vh
{

std::string said(std::string_view sentence)
{
    std::string words;
    for (const auto& word : lexicon::wordsOf(sentence))
        for (const std::string& each : word.spoken)
            words += (words.empty() ? "" : " ") + each;
    return words;
}

namespace reviewing
{

namespace
{

constexpr std::size_t kWordsOfASentence = 4; // shorter ones ("Good morning") may come as often as they like

bool isSentence(std::string_view words)
{
    return std::count(words.begin(), words.end(), ' ') + 1 >= static_cast<std::ptrdiff_t>(kWordsOfASentence);
}

/// From simple to connected speech: where a kind belongs; 0 for what may stand anywhere.
int orderOf(SectionKind kind)
{
    switch (kind) {
    case SectionKind::warmUp:
        return 1;
    case SectionKind::sustainedVowel:
        return 2;
    case SectionKind::pitchGlide:
        return 3;
    case SectionKind::counting:
        return 4;
    case SectionKind::phrases:
        return 5;
    case SectionKind::passage:
        return 6;
    case SectionKind::openTalk:
        return 7;
    case SectionKind::opening:
    case SectionKind::categoryNaming:
    case SectionKind::backOfTongue:
    case SectionKind::pause:
    case SectionKind::closing:
        return 0;
    }
    return 0;
}

Finding& addToSection(std::vector<Finding>& findings, FindingKind kind, std::size_t section, std::string why)
{
    Finding& finding = findings.emplace_back();
    finding.kind = kind;
    finding.section = static_cast<std::uint32_t>(section);
    finding.why = std::move(why);
    return finding;
}

/// Sounds and counting come back, and nobody minds.
bool isTheSameEveryDay(SectionKind kind)
{
    return kind == SectionKind::opening || kind == SectionKind::warmUp || kind == SectionKind::sustainedVowel ||
           kind == SectionKind::pitchGlide || kind == SectionKind::counting || kind == SectionKind::closing;
}

void sentences(const ClassScript& script, const ReviewRules& rules, std::vector<Finding>& findings)
{
    std::map<std::string, std::uint32_t> before; // section in which it was said first, from 1
    for (std::uint32_t section = 0; section < script.sections.size(); ++section)
        for (std::uint32_t step = 0; step < script.sections[section].steps.size(); ++step) {
            const Section& here = script.sections[section];
            const std::string& text = here.steps[step].text;
            if (!isSpoken(here.steps[step]))
                continue;
            for (const auto& sentence : lexicon::sentencesOf(text)) {
                const std::string words =
                    said(std::string_view(text).substr(sentence.begin, sentence.end - sentence.begin));
                if (!isSentence(words))
                    continue;
                const auto [first, fresh] = before.try_emplace(words, section + 1);
                const bool lately = !isTheSameEveryDay(here.kind) && rules.usedLately.contains(words);
                if (fresh && !lately)
                    continue;
                const At at{script, rules, findings, section, step};
                Finding& finding =
                    at.add(fresh ? FindingKind::usedLately : FindingKind::repeatedSentence,
                           fresh ? std::string("This sentence was in a class of the last 30 days.")
                                 : fmt::format("This sentence stands in section {} already.", first->second));
                finding.begin = static_cast<std::uint32_t>(sentence.begin);
                finding.end = static_cast<std::uint32_t>(sentence.end);
            }
        }
}

/// What the cautions must speak of, in English.
bool hasCautions(const Section& opening)
{
    static constexpr std::array<std::string_view, 6> kOf{"hurt", "dizzy", "breath", "hoarse", "swallow", "clinician"};
    std::string all;
    for (const Step& step : opening.steps)
        all += said(step.text) + ' ';
    return std::all_of(kOf.begin(), kOf.end(),
                       [&](std::string_view word) { return all.find(word) != std::string::npos; });
}

void cautions(const ClassScript& script, std::vector<Finding>& findings)
{
    const auto opening = std::find_if(script.sections.begin(), script.sections.end(),
                                      [](const Section& section) { return section.kind == SectionKind::opening; });
    if (opening != script.sections.end() && hasCautions(*opening))
        return;
    const auto where = opening == script.sections.end() ? 0 : opening - script.sections.begin();
    Finding& finding = addToSection(findings, FindingKind::noCautions, static_cast<std::size_t>(where),
                                    "The cautions are missing: when to stop, one's own swallowing plan, that this is a "
                                    "practice aid, whose advice comes first.");
    finding.mend = Mend{Mend::Kind::addCautions, {}, 0, {}};
}

} // namespace

void reviewWater(const ClassScript& script, const ReviewRules& rules, std::vector<Finding>& findings)
{
    const TimingPlan plan = planOf(script);
    Millis since{0};
    bool worked = false; // a demanding exercise since the last water
    for (std::size_t i = 0; i < script.sections.size(); ++i) {
        const SectionKind kind = script.sections[i].kind;
        const Millis length = i < plan.sectionLengths.size() ? plan.sectionLengths[i] : Millis{0};
        if (kind == SectionKind::pause) {
            since = Millis{0};
            worked = false;
            continue;
        }
        if (isDemanding(kind) && worked && since + length > rules.longestWithoutWater) {
            Finding& finding = addToSection(
                findings, FindingKind::noWaterPause, i,
                fmt::format(
                    "{:.0f} minutes since the last water pause by the end of this: one before it would do good.",
                    std::chrono::duration<double, std::ratio<60>>(since + length).count()));
            finding.mend = Mend{Mend::Kind::waterBefore, {}, 0, Millis{25'000}};
            since = Millis{0};
        }
        since += length;
        worked = worked || isDemanding(kind);
    }
    int reached = 0;
    for (std::size_t i = 0; rules.order && i < script.sections.size(); ++i) {
        const int order = orderOf(script.sections[i].kind);
        if (order > 0 && order < reached)
            addToSection(findings, FindingKind::orderNotFromSimple, i,
                         "Simpler than what came before it: from simple to connected speech it would stand earlier.");
        reached = std::max(reached, order);
    }
    sentences(script, rules, findings);
    if (rules.words)
        cautions(script, findings);
}

void reviewWhole(const ClassScript& script, const ReviewRules& rules, std::vector<Finding>& findings)
{
    const Millis total = planOf(script, rules.pace).total;
    const Millis planned = std::chrono::minutes(script.plannedMinutes);
    if (std::chrono::abs(total - planned) <= rules.offPlan)
        return;
    const auto minutes = [](Millis time) { return std::chrono::duration<double, std::ratio<60>>(time).count(); };
    Finding& finding = findings.emplace_back();
    finding.kind = total > planned ? FindingKind::longerThanPlanned : FindingKind::shorterThanPlanned;
    finding.why = fmt::format("{} comes to {:.1f} minutes, and {} were asked for.",
                              rules.pace.isAsPlanned() ? "The plan" : "At your own pace the plan", minutes(total),
                              script.plannedMinutes);
    finding.mend = Mend{Mend::Kind::plannedMinutes, {}, 0, std::chrono::round<std::chrono::minutes>(total)};
}

} // namespace reviewing

std::set<std::string> sentencesSaid(const ClassScript& script)
{
    std::set<std::string> all;
    for (const Section& section : script.sections) {
        if (reviewing::isTheSameEveryDay(section.kind))
            continue;
        for (const Step& step : section.steps)
            for (const auto& sentence : lexicon::sentencesOf(reviewing::isSpoken(step) ? step.text : std::string())) {
                std::string words =
                    said(std::string_view(step.text).substr(sentence.begin, sentence.end - sentence.begin));
                if (reviewing::isSentence(words))
                    all.insert(std::move(words));
            }
    }
    return all;
}

} // namespace vh
