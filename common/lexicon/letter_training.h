#pragma once
// Grows the tree from letters to phones out of a dictionary whose words are aligned. Deterministic. Runs when the
// program is built, and in the test that measures it on words that were held out. Thread: any.
#include "common/lexicon/alignment.h"

namespace vh::lexicon
{

LetterTree learnt(const std::vector<Spoken>& words, const Alignment& alignment);

} // namespace vh::lexicon
