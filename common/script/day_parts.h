#pragma once
// The steps that a class needs every day and nobody should have to write: a welcome, how to sit, warming up, long
// vowels, glides, counting, back-of-tongue lines, a goodbye. Worded differently from day to day: neighbouring days
// never have the same words, and back-of-tongue lines stay away for a month. `day` counts days from any one; `which`
// counts the steps of that sort within a class. English. Pure; any thread.
#include "common/script/script.h"

#include <string>
#include <vector>

namespace vh::day
{

/// What the leader alone says.
Step welcome(std::uint64_t day, const std::string& theme);
Step posture(std::uint64_t day, std::size_t which);
Step movement(std::uint64_t day, std::size_t which);
Step lastWord(std::uint64_t day, std::size_t which);
Step backOfTongueBegins(std::uint64_t day);

/// What people say, with rounds that suit it.
Step hum(std::uint64_t day, std::size_t which); ///< hums and sighs in turn
Step vowel(std::uint64_t day, std::size_t which, int times);
Step glide(std::uint64_t day, std::size_t which, int times); ///< up and down in turn
Step count(std::uint64_t day, std::size_t which);            ///< there and back in turn
Step goodbye(std::uint64_t day, std::size_t which);
/// Lines of syllables, and one of those theme words that are rich enough in k, g and ng, where there are any.
std::vector<Step> backOfTongue(std::uint64_t day, int lines, const std::vector<std::string>& themeWords);

} // namespace vh::day
