#pragma once
// A class of about 27 seconds for tests: phrases with me and alone, two whole turns of naming things, a word at each
// end. Each turn has room for well over a second of voice; the last words leave time
// for results of homes that are slow to come.
#include "common/script/script.h"

namespace vh::testing
{

inline ClassScript shortClass()
{
    const auto turn = [](TurnKind kind, int milliseconds) { return Turn{kind, Millis{milliseconds}}; };
    const auto section = [](SectionKind kind, std::string title, std::string text, std::vector<Round> rounds) {
        Step step;
        step.text = std::move(text);
        step.rounds = std::move(rounds);
        return Section{kind, std::move(title), {step}};
    };
    const auto phrases = [&](bool moreVoice) {
        return Round{moreVoice,
                     {turn(TurnKind::ready, 500), turn(TurnKind::withMe, 3000), turn(TurnKind::yours, 3200)}};
    };
    ClassScript script;
    script.title = "Twenty-seven seconds";
    script.theme = "tests";
    script.language = "en";
    script.plannedMinutes = 1;
    script.sections = {
        section(SectionKind::opening, "Hello", "Hello to all", {{false, {turn(TurnKind::listen, 1000)}}}),
        section(SectionKind::phrases, "Phrases", "The bread is still warm this morning",
                {phrases(false), phrases(true)}),
        section(SectionKind::categoryNaming, "Fruit", "Fruit",
                {{false, {turn(TurnKind::yours, 4000), turn(TurnKind::yours, 4000)}}}),
        section(SectionKind::closing, "Goodbye", "Until tomorrow", {{false, {turn(TurnKind::listen, 5000)}}})};
    return script;
}

} // namespace vh::testing
