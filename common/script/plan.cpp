#include "common/script/plan.h"

#include <algorithm>

namespace vh
{

std::optional<Millis> TimingPlan::startOf(TurnIndex index) const
{
    const auto found = std::ranges::lower_bound(turns, index, {}, &PlannedTurn::index);
    if (found == turns.end() || found->index != index)
        return std::nullopt;
    return found->start;
}

const PlannedTurn* TimingPlan::turnAt(Millis sinceStart) const
{
    if (sinceStart < Millis{0} || sinceStart >= total)
        return nullptr;
    return &*std::prev(std::ranges::upper_bound(turns, sinceStart, {}, &PlannedTurn::start));
}

TimingPlan planOf(const ClassScript& script)
{
    TimingPlan plan;
    TurnIndex index;
    for (index.section = 0; index.section < script.sections.size(); ++index.section) {
        const Millis sectionStart = plan.total;
        const auto& steps = script.sections[index.section].steps;
        for (index.step = 0; index.step < steps.size(); ++index.step) {
            const auto& rounds = steps[index.step].rounds;
            for (index.round = 0; index.round < rounds.size(); ++index.round) {
                const auto& turns = rounds[index.round].turns;
                for (index.turn = 0; index.turn < turns.size(); ++index.turn) {
                    plan.turns.push_back({index, plan.total, turns[index.turn].planned});
                    plan.total += turns[index.turn].planned;
                }
            }
        }
        plan.sectionLengths.push_back(plan.total - sectionStart);
    }
    return plan;
}

} // namespace vh
