#pragma once
// Lines of syllables for the back of the tongue: k or g, alone or before l, a vowel, and k, g, ng or nothing
// behind it, in rows that are easy to say: a vowel that goes round, a consonant that changes. Each day has lines of its
// own: no line comes back within kDaysApart days. English spelling; made-up words as a rule, and none that is rude.
// Pure; any thread.
#include <cstdint>
#include <string>
#include <vector>

namespace vh::lexicon
{

/// Up to this many lines a day stay clear of those of the days around it.
inline constexpr int kLinesADay = 8;
inline constexpr int kDaysApart = 31;

/// "Kig, kag, kong." `count` lines, no two alike; the same ones for the same day, days counted from any one. More than
/// kLinesADay are lines of days more than kDaysApart away; at most as many as there are.
std::vector<std::string> backLines(std::uint64_t day, int count);

} // namespace vh::lexicon
