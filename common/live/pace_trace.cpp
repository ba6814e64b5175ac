#include "common/live/pace_trace.h"

#include <algorithm>
#include <set>

namespace vh
{

namespace
{

constexpr Millis kALittle{4'000};

/// Class time that passed at trace[i].
Millis spentAt(std::span<const PlaceSeen> trace, std::size_t i)
{
    const bool counts = trace[i].phase == Phase::running || trace[i].phase == Phase::waiting;
    return counts && i + 1 < trace.size() ? std::max(trace[i + 1].at - trace[i].at, Millis{0}) : Millis{0};
}

/// The step that is being gone through.
class StepWalk
{
public:
    StepWalk(const ClassScript& script, Led led) : m_script(script), m_led(led) {}

    void spend(const Place& place, Millis time)
    {
        if (!m_at || stepStart(*m_at) != stepStart(place)) {
            m_whole = place == stepStart(place);
            m_spent = {};
        }
        m_at = place;
        if (const auto at = turnAt(m_script, place))
            m_spent[static_cast<std::size_t>(partOf(at->turn->kind))] += time;
        else
            m_whole = false;
    }
    void moveTo(const Place& next)
    {
        const auto following = nextTurn(m_script, *m_at);
        if (stepStart(next) == stepStart(*m_at))
            m_whole = m_whole && (following == next || next <= *m_at); // once more is a part of it, a jump on is not
        else if (m_whole && (!following || stepStart(*following) != stepStart(*m_at)))
            count(); // it was in its last turn, whatever came then: steps may have been left out
    }
    void end()
    {
        if (m_at && m_whole && turnAt(m_script, *m_at) && !nextTurn(m_script, *m_at))
            count();
    }
    [[nodiscard]] const PaceSample& sample() const { return m_sample; }

private:
    void count()
    {
        const TurnAt at = *turnAt(m_script, *m_at);
        std::array<Millis, kPaceParts> planned{};
        for (const Round& round : at.step->rounds)
            for (const Turn& turn : round.turns)
                planned[static_cast<std::size_t>(partOf(turn.kind))] += turn.planned;
        for (const PacePart part : {PacePart::shown, PacePart::spoken}) {
            const bool alone = m_led == Led::rehearsal;
            const Millis plan = planned[static_cast<std::size_t>(part)];
            if (plan == Millis{0} || (alone && (part == PacePart::spoken || at.section->kind == SectionKind::pause)))
                continue;
            m_sample.add(at.section->kind, part, plan,
                         std::min(m_spent[static_cast<std::size_t>(part)], 2 * plan + kALittle));
        }
    }

    const ClassScript& m_script;
    Led m_led;
    std::optional<Place> m_at;
    bool m_whole = false;
    std::array<Millis, kPaceParts> m_spent{};
    PaceSample m_sample;
};

} // namespace

void note(ClassTrace& trace, const PlaceSeen& seen)
{
    if (trace.empty() || trace.back().phase != seen.phase || trace.back().place != seen.place)
        trace.push_back(seen);
}

PaceSample paceOf(const ClassScript& script, std::span<const PlaceSeen> trace, Led led)
{
    StepWalk walk(script, led);
    std::optional<Place> last;
    for (std::size_t i = 0; i < trace.size(); ++i) {
        if (trace[i].phase == Phase::notStarted)
            continue;
        if (trace[i].phase == Phase::ended) {
            walk.end();
            break;
        }
        if (last && trace[i].place != *last)
            walk.moveTo(trace[i].place);
        walk.spend(trace[i].place, spentAt(trace, i));
        last = trace[i].place;
    }
    const PaceSample::Time sum = walk.sample().sum();
    const bool leafedThrough =
        static_cast<double>(sum.actual.count()) < kLeastOfPlan * static_cast<double>(sum.planned.count());
    return leafedThrough || sum.planned < kLeastGoneThrough ? PaceSample{} : walk.sample();
}

std::vector<SectionTime> sectionTimes(const ClassScript& script, std::span<const PlaceSeen> trace)
{
    std::vector<SectionTime> times(script.sections.size());
    const TimingPlan plan = planOf(script);
    for (std::size_t i = 0; i < times.size(); ++i) {
        times[i].planned = plan.sectionLengths[i];
        times[i].steps = script.sections[i].steps.size();
    }
    std::set<Place> seen;
    for (std::size_t i = 0; i < trace.size(); ++i) {
        const Place& place = trace[i].place;
        if (trace[i].phase == Phase::notStarted || trace[i].phase == Phase::ended || !turnAt(script, place))
            continue;
        times[place.section].actual += spentAt(trace, i);
        times[place.section].stepsSeen += seen.insert(stepStart(place)).second;
    }
    return times;
}

} // namespace vh
