#include "app/write/script_edits.h"

#include "app/write/marked_text.h"
#include "common/script/mend.h"
#include "common/script/shapes.h"

#include <algorithm>

namespace vh::write
{

namespace
{

using Index = std::ptrdiff_t;

/// As one writes most of them: heard once, said twice, the second time with more voice.
std::vector<Round> usualRounds()
{
    constexpr Millis kShown{5000};
    constexpr Millis kReady{2000};
    return {{false, {{TurnKind::listen, kShown}, {TurnKind::ready, kReady}, {TurnKind::yours, kShown}}},
            {true, {{TurnKind::ready, kReady}, {TurnKind::yours, kShown}}}};
}

Step newStep(const Section& section, int like)
{
    if (section.kind == SectionKind::pause)
        return waterPause(Millis{25'000}).steps.front();
    Step step;
    step.text = kToWrite;
    const bool has = like >= 0 && like < static_cast<int>(section.steps.size());
    step.rounds = has                     ? section.steps[static_cast<std::size_t>(like)].rounds
                  : section.steps.empty() ? usualRounds()
                                          : section.steps.front().rounds;
    return step;
}

std::optional<Edited> withStep(Edited all)
{
    if (all.spot.section < 0)
        return std::nullopt;
    auto& section = all.script.sections[static_cast<std::size_t>(all.spot.section)];
    Step step = newStep(section, all.spot.step);
    section.steps.insert(section.steps.begin() + ++all.spot.step, std::move(step));
    return all;
}

Edited withSection(Edited all)
{
    const int at = all.spot.section < 0 ? static_cast<int>(all.script.sections.size()) : all.spot.section + 1;
    Section section{SectionKind::phrases, "New part", {}};
    section.steps.push_back(newStep(section, -1));
    all.script.sections.insert(all.script.sections.begin() + at, std::move(section));
    all.spot = {at, -1};
    return all;
}

std::optional<Edited> copied(Edited all)
{
    if (all.spot.section < 0)
        return std::nullopt;
    auto& sections = all.script.sections;
    if (all.spot.step < 0) {
        sections.insert(sections.begin() + all.spot.section + 1,
                        Section(sections[static_cast<std::size_t>(all.spot.section)]));
        ++all.spot.section;
        return all;
    }
    auto& steps = sections[static_cast<std::size_t>(all.spot.section)].steps;
    steps.insert(steps.begin() + all.spot.step + 1, Step(steps[static_cast<std::size_t>(all.spot.step)]));
    ++all.spot.step;
    return all;
}

/// A step that is first or last of its section goes into the next one.
std::optional<Edited> moved(Edited all, int by)
{
    auto& sections = all.script.sections;
    const int section = all.spot.section;
    const int other = section + by;
    if (section < 0)
        return std::nullopt;
    const bool hasOther = other >= 0 && other < static_cast<int>(sections.size());
    if (all.spot.step < 0) {
        if (!hasOther)
            return std::nullopt;
        std::swap(sections[static_cast<std::size_t>(section)], sections[static_cast<std::size_t>(other)]);
        all.spot.section = other;
        return all;
    }
    auto& steps = sections[static_cast<std::size_t>(section)].steps;
    const int target = all.spot.step + by;
    if (target >= 0 && target < static_cast<int>(steps.size())) {
        std::swap(steps[static_cast<std::size_t>(all.spot.step)], steps[static_cast<std::size_t>(target)]);
        all.spot.step = target;
        return all;
    }
    if (!hasOther)
        return std::nullopt;
    auto& there = sections[static_cast<std::size_t>(other)].steps;
    const int place = by < 0 ? static_cast<int>(there.size()) : 0;
    there.insert(there.begin() + place, std::move(steps[static_cast<std::size_t>(all.spot.step)]));
    steps.erase(steps.begin() + all.spot.step);
    all.spot = {other, place};
    return all;
}

std::optional<Edited> split(Edited all, std::size_t caret)
{
    Step* first = stepAt(all.script, all.spot);
    if (!first || caret > first->text.size() || isToWrite(*first))
        return std::nullopt;
    Step second;
    second.rounds = first->rounds;
    second.optionalDearness = first->optionalDearness;
    second.text = first->text.substr(caret);
    const auto from = static_cast<std::uint32_t>(caret);
    std::vector<Stretch> before;
    for (const Stretch& mark : first->stretches) {
        if (mark.begin < from)
            before.push_back({mark.begin, std::min(mark.end, from)});
        if (mark.end > from)
            second.stretches.push_back({std::max(mark.begin, from) - from, mark.end - from});
    }
    first->text.resize(caret);
    first->stretches = std::move(before);
    for (Step* part : {first, &second}) {
        MarkedText text = tidied({part->text, part->stretches}, LineBreaks::keep);
        if (text.text.empty())
            return std::nullopt;
        part->text = std::move(text.text);
        part->stretches = std::move(text.stretches);
    }
    auto& steps = all.script.sections[static_cast<std::size_t>(all.spot.section)].steps;
    steps.insert(steps.begin() + ++all.spot.step, std::move(second));
    return all;
}

std::optional<Edited> removed(Edited all)
{
    if (all.spot.section < 0)
        return std::nullopt;
    auto& sections = all.script.sections;
    if (all.spot.step < 0) {
        sections.erase(sections.begin() + all.spot.section);
    } else {
        auto& steps = sections[static_cast<std::size_t>(all.spot.section)].steps;
        steps.erase(steps.begin() + all.spot.step);
    }
    all.spot = nearest(all.script, all.spot);
    return all;
}

} // namespace

std::optional<Edited> edited(const ClassScript& script, Spot spot, Structure what, std::size_t caret)
{
    Edited all{script, nearest(script, spot)};
    switch (what) {
    case Structure::addStep:
        return withStep(std::move(all));
    case Structure::addSection:
        return withSection(std::move(all));
    case Structure::copy:
        return copied(std::move(all));
    case Structure::moveUp:
        return moved(std::move(all), -1);
    case Structure::moveDown:
        return moved(std::move(all), 1);
    case Structure::split:
        return split(std::move(all), caret);
    case Structure::remove:
        return removed(std::move(all));
    }
    return std::nullopt;
}

const Section* sectionAt(const ClassScript& script, Spot spot)
{
    const bool has = spot.section >= 0 && spot.section < static_cast<int>(script.sections.size());
    return has ? &script.sections[static_cast<std::size_t>(spot.section)] : nullptr;
}

const Step* stepAt(const ClassScript& script, Spot spot)
{
    const Section* section = sectionAt(script, spot);
    const bool has = section && spot.step >= 0 && spot.step < static_cast<int>(section->steps.size());
    return has ? &section->steps[static_cast<std::size_t>(spot.step)] : nullptr;
}

Step* stepAt(ClassScript& script, Spot spot)
{
    return const_cast<Step*>(stepAt(std::as_const(script), spot)); // NOLINT: the class it is in is not const
}

Spot nearest(const ClassScript& script, Spot spot)
{
    const int sections = static_cast<int>(script.sections.size());
    spot.section = std::min(spot.section, sections - 1);
    if (spot.section < 0)
        return {};
    const int steps = static_cast<int>(script.sections[static_cast<std::size_t>(spot.section)].steps.size());
    return {spot.section, std::max(-1, std::min(spot.step, steps - 1))};
}

std::optional<Spot> stepAfter(const ClassScript& script, Spot spot)
{
    for (Spot next{std::max(spot.section, 0), spot.section < 0 ? 0 : spot.step + 1};
         next.section < static_cast<int>(script.sections.size()); next = {next.section + 1, 0})
        if (stepAt(script, next))
            return next;
    return std::nullopt;
}

std::optional<Spot> stepBefore(const ClassScript& script, Spot spot)
{
    Spot last{spot.section, spot.step - 1};
    while (last.section >= 0) {
        if (stepAt(script, last))
            return last;
        if (--last.section >= 0)
            last.step = static_cast<int>(script.sections[static_cast<std::size_t>(last.section)].steps.size()) - 1;
    }
    return std::nullopt;
}

} // namespace vh::write
