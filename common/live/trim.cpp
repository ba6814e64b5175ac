#include "common/live/trim.h"

#include <algorithm>
#include <tuple>
#include <utility>

namespace vh
{

namespace
{

struct MayGo {
    StepAt at;
    int dearness = 0;
    Millis length{0};
};

/// Coming steps that may go and are still in: least dear first, of these the longest, of these the last.
std::vector<MayGo> mayGo(const ClassScript& script, const ClassState& state)
{
    std::vector<MayGo> steps;
    for (auto at = nextStep(script, state.place, state.leftOut); at; at = nextStep(script, *at, state.leftOut)) {
        const Step& step = *turnAt(script, *at)->step;
        if (step.optionalDearness)
            steps.push_back({stepOf(*at), *step.optionalDearness, plannedLength(step)});
    }
    std::ranges::sort(steps, [](const MayGo& a, const MayGo& b) {
        return std::tuple(a.dearness, b.length, b.at) < std::tuple(b.dearness, a.length, a.at);
    });
    return steps;
}

} // namespace

Trim trimToFit(const ClassScript& script, const ClassState& state, Instant now)
{
    Trim trim;
    if (!state.startedAt || state.phase == Phase::ended)
        return trim;
    trim.behind = behindPlan(script, state, now);
    const Millis need = trim.behind - kOnTime;
    std::vector<MayGo> left = mayGo(script, state);
    std::vector<MayGo> taken;
    while (trim.saved < need && !left.empty() && state.leftOut.size() + taken.size() < kMostLeftOut) {
        // The longest of the least dear ones; if that would do, the shortest of them that does.
        auto pick = left.begin();
        for (auto each = left.begin(); each != left.end() && each->dearness == left.front().dearness; ++each)
            if (trim.saved + each->length >= need && each->length < pick->length)
                pick = each;
        trim.saved += pick->length;
        taken.push_back(*pick);
        left.erase(pick);
    }
    trim.endsOnTime = trim.saved >= need;
    // What the last, dearer one has made unnecessary stays in, the dearest first.
    for (auto each = taken.rbegin(); each != taken.rend() && trim.endsOnTime; ++each)
        if (trim.saved - each->length >= need)
            trim.saved -= std::exchange(each->length, Millis{0});
    for (const MayGo& each : taken)
        if (each.length > Millis{0})
            trim.steps.push_back(each.at);
    std::ranges::sort(trim.steps);
    return trim;
}

} // namespace vh
