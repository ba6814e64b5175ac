#pragma once
// How the rules of a review are told what they look at, and where they put what they find. Internal to the review.
#include "common/script/review.h"

namespace vh::reviewing
{

struct At {
    const ClassScript& script;
    const ReviewRules& rules;
    std::vector<Finding>& findings;
    std::uint32_t sectionIndex = 0;
    std::uint32_t stepIndex = 0;

    [[nodiscard]] const Section& section() const { return script.sections[sectionIndex]; }
    [[nodiscard]] const Step& step() const { return section().steps[stepIndex]; }
    /// About the whole step.
    Finding& add(FindingKind kind, std::string why) const;
};

void reviewText(const At& at);
void reviewTurns(const At& at);
void reviewWater(const ClassScript& script, const ReviewRules& rules, std::vector<Finding>& findings);
void reviewWhole(const ClassScript& script, const ReviewRules& rules, std::vector<Finding>& findings);

/// People say it: a turn of theirs is in it.
bool isSpoken(const Step& step);
/// Exercises that ask for voice and breath.
bool isDemanding(SectionKind kind);

} // namespace vh::reviewing
