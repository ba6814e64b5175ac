#pragma once
// Whole numbers as they are read out in English: "forty-two" as forty, two. Pure; any thread.
#include <string>
#include <string_view>
#include <vector>

namespace vh::lexicon
{

/// The words of a run of digits. Up to 999,999 as a number ("1905" is nineteen oh five: a year from 1100 to 1999 or
/// from 2010 to 2099 goes in pairs); longer runs, and those that begin with 0, digit by digit.
std::vector<std::string> readOut(std::string_view digits);

} // namespace vh::lexicon
