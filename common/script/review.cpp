#include "common/script/review.h"

#include "common/script/review_parts.h"

#include <algorithm>
#include <array>

namespace vh
{

std::string_view nameOf(FindingKind kind)
{
    static constexpr std::array<std::string_view, 19> kNames{
        "too-long-for-one-breath",  "hard-to-read",          "does-not-fit-screen", "no-vowel-marked",
        "no-back-of-tongue-sounds", "no-water-pause",        "pause-asks",          "order-not-from-simple",
        "drill-too-fast",           "no-ready-turn",         "vowel-too-long",      "longer-than-planned",
        "shorter-than-planned",     "picture-not-described", "repeated-sentence",   "used-lately",
        "word-to-explain",          "no-cautions",           "left-to-write"};
    return kNames[static_cast<std::size_t>(kind)];
}

namespace reviewing
{

Finding& At::add(FindingKind kind, std::string why) const
{
    Finding& finding = findings.emplace_back();
    finding.kind = kind;
    finding.section = sectionIndex;
    finding.step = stepIndex;
    finding.why = std::move(why);
    return finding;
}

bool isSpoken(const Step& step)
{
    return std::any_of(step.rounds.begin(), step.rounds.end(), [](const Round& round) {
        return std::any_of(round.turns.begin(), round.turns.end(), [](const Turn& turn) {
            return turn.kind == TurnKind::withMe || turn.kind == TurnKind::yours;
        });
    });
}

bool isDemanding(SectionKind kind)
{
    switch (kind) {
    case SectionKind::sustainedVowel:
    case SectionKind::pitchGlide:
    case SectionKind::counting:
    case SectionKind::phrases:
    case SectionKind::backOfTongue:
    case SectionKind::passage:
        return true;
    case SectionKind::opening:
    case SectionKind::warmUp:
    case SectionKind::categoryNaming:
    case SectionKind::openTalk:
    case SectionKind::pause:
    case SectionKind::closing:
        return false;
    }
    return false;
}

} // namespace reviewing

Review review(const ClassScript& script, const ReviewRules& rules)
{
    Review found;
    for (std::uint32_t section = 0; section < script.sections.size(); ++section)
        for (std::uint32_t step = 0; step < script.sections[section].steps.size(); ++step) {
            const reviewing::At at{script, rules, found.findings, section, step};
            reviewing::reviewText(at);
            reviewing::reviewTurns(at);
        }
    reviewing::reviewWater(script, rules, found.findings);
    std::stable_sort(found.findings.begin(), found.findings.end(), [](const Finding& one, const Finding& other) {
        return std::pair(one.section, one.step.value_or(0)) < std::pair(other.section, other.step.value_or(0));
    });
    reviewing::reviewWhole(script, rules, found.findings);
    if (!rules.words)
        found.off = {FindingKind::tooLongForOneBreath, FindingKind::hardToRead,    FindingKind::noBackOfTongueSounds,
                     FindingKind::drillTooFast,        FindingKind::wordToExplain, FindingKind::noCautions};
    if (!rules.order)
        found.off.push_back(FindingKind::orderNotFromSimple);
    return found;
}

ReviewRules rulesFor(std::string_view language)
{
    ReviewRules rules;
    if (language == "en" || language.starts_with("en-"))
        rules.words = &lexicon::english();
    return rules;
}

} // namespace vh
