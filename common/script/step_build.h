#pragma once
// Short ways to write steps in code: turns, rounds, and a text with its marks ("b<oa>t"). For text of our own only: a
// mark must be closed. Internal to the shapes. Pure; any thread.
#include "common/script/pace.h"
#include "common/script/spoken_pace.h"

#include <string>
#include <string_view>
#include <vector>

namespace vh::build
{

constexpr Millis seconds(double count)
{
    return Millis{static_cast<std::int64_t>(count * 1000)};
}
inline Turn listen(Millis length)
{
    return {TurnKind::listen, length};
}
inline Turn ready()
{
    return {TurnKind::ready, kReadyLength};
}
inline Turn withMe(Millis length)
{
    return {TurnKind::withMe, length};
}
inline Turn yours(Millis length)
{
    return {TurnKind::yours, length};
}

inline Step marked(std::string_view text, std::vector<Round> rounds, std::string_view note = {})
{
    Step step;
    for (const char c : text) {
        const auto here = static_cast<std::uint32_t>(step.text.size());
        if (c == '<')
            step.stretches.push_back({here, here});
        else if (c == '>')
            step.stretches.back().end = here;
        else
            step.text += c;
    }
    step.rounds = std::move(rounds);
    step.note = note;
    return step;
}

/// The leader says it; any text, without marks.
inline Step said(std::string text, Millis length, std::string_view note = {})
{
    Step step;
    step.text = std::move(text);
    step.rounds = {{false, {listen(length)}}};
    step.note = note;
    return step;
}

/// What the text of a marked step takes to say, in English.
inline Millis toSay(const Step& step)
{
    return plannedAsSpoken("en", TurnKind::yours, step.text, step.stretches.size()).value_or(seconds(4));
}

inline std::vector<Round> first(Round round, const Round& again, int times)
{
    std::vector<Round> all{std::move(round)};
    all.insert(all.end(), static_cast<std::size_t>(times), again);
    return all;
}

} // namespace vh::build
