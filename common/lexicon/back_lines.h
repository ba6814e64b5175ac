#pragma once
// Lines of syllables for the back of the tongue: k and g before a vowel, and k, g, ng or nothing behind it, in rows
// that are easy to say: a vowel that goes round, a consonant that changes, pairs and threes. Another row for another
// seed, the same row for the same one. English spelling; made-up words as a rule, and none that is rude. Pure; any
// thread.
#include <cstdint>
#include <string>
#include <vector>

namespace vh::lexicon
{

/// "Kig, kag, kong." `count` lines, no two alike.
std::vector<std::string> backLines(std::uint64_t seed, int count);

} // namespace vh::lexicon
