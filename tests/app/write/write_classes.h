#pragma once
// Small classes for the tests of the writing room.
#include "common/script/script.h"

namespace vh::testing
{

inline std::vector<Round> heardAndSaid()
{
    return {
        {false, {{TurnKind::listen, Millis{4000}}, {TurnKind::ready, Millis{2000}}, {TurnKind::yours, Millis{4000}}}}};
}

inline Step stepOf(std::string text)
{
    Step step;
    step.text = std::move(text);
    step.rounds = heardAndSaid();
    return step;
}

/// Two parts: three phrases, and one to close. It has no cautions, so that there is something to say about it.
inline ClassScript pondClass()
{
    ClassScript script{"At the pond", "Pond", "en", 1, {}};
    script.sections.push_back({SectionKind::phrases,
                               "Round the pond",
                               {stepOf("Row the boat."), stepOf("The frog is home."), stepOf("Look at the moon.")}});
    script.sections.push_back({SectionKind::closing, "Goodbye", {stepOf("See you tomorrow.")}});
    return script;
}

} // namespace vh::testing
