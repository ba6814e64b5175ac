#pragma once
// A class laid out from a theme and a few words: sections, rounds and times of one of the shapes, the fixed parts
// filled in, sentences, groups and the passage left to write, each with what would make it good in its note. What is
// left to write has the text kToWrite, so that it is a class from the first moment. English only so far. Pure; any
// thread.
#include "common/script/script.h"

#include <cstdint>
#include <string>
#include <vector>

namespace vh
{

enum class Shape : std::uint8_t {
    steadyClimb,  ///< from one sound to connected speech, each exercise longer than the one before
    thereAndBack, ///< sounds, sentences, sounds again, and home with the passage
    talkingDay,   ///< short drills, much to say in one's own words
};
inline constexpr int kShapes = 3;
/// "Steady climb", and what it is like in a sentence.
std::string_view titleOf(Shape shape);
std::string_view aboutOf(Shape shape);

struct Theme {
    std::string name;               ///< "Kites"
    std::vector<std::string> words; ///< about a dozen that belong to it
    int minutes = 20;
    std::uint64_t day = 0; ///< another day, other syllables: days since some day
};

inline constexpr std::string_view kToWrite = "…";
[[nodiscard]] bool isToWrite(const Step& step);

/// Within a minute of theme.minutes, from 15 to 30 minutes.
ClassScript laidOut(Shape shape, const Theme& theme);
/// In the shape of an earlier class: its sections, rounds and times; what was written for it is left to write again,
/// what is the same every day stays, back-of-tongue lines are new.
ClassScript laidOutAs(const ClassScript& earlier, const Theme& theme);

} // namespace vh
