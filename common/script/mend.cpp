// Mending what a review found.
#include "common/script/mend.h"

#include "common/script/review.h"

namespace vh
{

namespace
{

Step readByLeader(std::string text, Millis length)
{
    Step step;
    step.text = std::move(text);
    step.rounds = {{false, {{TurnKind::listen, length}}}};
    return step;
}

Round* roundOf(ClassScript& script, const Finding& finding)
{
    if (!finding.section || !finding.step || !finding.round || *finding.section >= script.sections.size())
        return nullptr;
    auto& steps = script.sections[*finding.section].steps;
    if (*finding.step >= steps.size() || *finding.round >= steps[*finding.step].rounds.size())
        return nullptr;
    Round& round = steps[*finding.step].rounds[*finding.round];
    return finding.mend->turn < round.turns.size() ? &round : nullptr;
}

void mendSection(ClassScript& script, const Finding& finding)
{
    const std::size_t at = *finding.section;
    if (finding.mend->kind == Mend::Kind::waterBefore) {
        script.sections.insert(script.sections.begin() + static_cast<std::ptrdiff_t>(at),
                               waterPause(finding.mend->length));
        return;
    }
    if (script.sections[at].kind != SectionKind::opening) {
        script.sections.insert(script.sections.begin(), {SectionKind::opening, "Before we begin", cautionSteps()});
        return;
    }
    for (Step& step : cautionSteps())
        script.sections[at].steps.push_back(std::move(step));
}

void mendStep(Step& step, const Mend& mend)
{
    if (mend.kind == Mend::Kind::emptyPause) {
        step.text.clear();
        step.stretches.clear();
        for (Round& round : step.rounds)
            for (Turn& turn : round.turns)
                turn.kind = TurnKind::listen;
        return;
    }
    if (!mend.stretches.empty() && mend.stretches.back().end <= step.text.size())
        step.stretches = mend.stretches;
}

} // namespace

/// Two, so that they fit a home's screen in large print.
std::vector<Step> cautionSteps()
{
    return {readByLeader("Before we begin.\n"
                         "Stop if anything hurts, if you feel dizzy or short of breath, or if your voice turns hoarse.",
                         Millis{15'000}),
            readByLeader("At water pauses, your own drinking and swallowing plan is the one that counts.\n"
                         "This class is a practice aid, not for diagnosis or treatment decisions.\n"
                         "What your own clinician told you comes first.",
                         Millis{20'000})};
}

Section waterPause(Millis length)
{
    Step quiet;
    quiet.note = "Stay silent: nothing to read, nothing to answer.";
    quiet.rounds = {{false, {{TurnKind::listen, length}}}};
    return {SectionKind::pause, "Water pause, if your own plan allows", {quiet}};
}

ClassScript withMend(ClassScript script, const Finding& finding)
{
    if (!finding.mend)
        return script;
    const Mend& mend = *finding.mend;
    switch (mend.kind) {
    case Mend::Kind::plannedMinutes:
        script.plannedMinutes = static_cast<int>(std::chrono::round<std::chrono::minutes>(mend.length).count());
        break;
    case Mend::Kind::readyBefore:
        if (Round* round = roundOf(script, finding))
            round->turns.insert(round->turns.begin() + mend.turn, {TurnKind::ready, mend.length});
        break;
    case Mend::Kind::turnLength:
        if (Round* round = roundOf(script, finding))
            round->turns[mend.turn].planned = mend.length;
        break;
    case Mend::Kind::waterBefore:
    case Mend::Kind::addCautions:
        if (finding.section && *finding.section < script.sections.size())
            mendSection(script, finding);
        break;
    case Mend::Kind::markVowels:
    case Mend::Kind::emptyPause:
        if (finding.section && finding.step && *finding.section < script.sections.size() &&
            *finding.step < script.sections[*finding.section].steps.size())
            mendStep(script.sections[*finding.section].steps[*finding.step], mend);
        break;
    }
    return script;
}

} // namespace vh
