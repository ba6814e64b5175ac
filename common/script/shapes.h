#pragma once
// A class laid out from a theme and a few words: sections, rounds and times of one of the shapes, or of an earlier
// class; the fixed parts filled in (day_parts.h), sentences, groups and the passage left to write, each with a note on
// what would make it good. What is left to write has the text kToWrite, so that it is a class from the first moment.
// English only so far. Pure; any thread.
#include "common/script/own_pace.h"

#include <cstdint>
#include <string>
#include <vector>

namespace vh
{

enum class ClassShape : std::uint8_t {
    steadyClimb,  ///< from one sound to connected speech, each exercise longer than the one before
    thereAndBack, ///< sounds, sentences, sounds again, and home with the passage
    talkingDay,   ///< short drills, much to say in one's own words
};
inline constexpr int kShapes = 3;
/// "Steady climb", and what it is like in a sentence.
std::string_view titleOf(ClassShape shape);
std::string_view aboutOf(ClassShape shape);

struct Theme {
    std::string name;               ///< "Kites"
    std::vector<std::string> words; ///< about a dozen that belong to it
    int minutes = 20;
    std::uint64_t day = 0; ///< another day, other words and syllables: days since some day
    OwnPace pace;          ///< of whoever leads it: how many sentences there is time for
};
inline constexpr int kLeastLaidOut = 15; ///< minutes that a shape can be laid out for
inline constexpr int kMostLaidOut = 30;

inline constexpr std::string_view kToWrite = "…";
[[nodiscard]] bool isToWrite(const Step& step);

/// Words as one types them in one line: between commas or semicolons, where there are any, else between spaces; no word
/// twice, at most 40 of at most 40 characters.
std::vector<std::string> wordsTyped(std::string_view line);

/// Within a minute of theme.minutes, at theme.pace, from kLeastLaidOut to kMostLaidOut.
ClassScript laidOut(ClassShape shape, const Theme& theme);
/// In the shape of an earlier class: its sections, rounds and times; the fixed parts in the words of this day (as they
/// are where it is not in English), the cautions as they are, all else to write. Has more sentences or fewer where
/// theme.minutes asks for another length.
ClassScript laidOutAs(const ClassScript& earlier, const Theme& theme);

} // namespace vh
