#pragma once
// Reads a dictionary as Festival keeps it: one word a line, ("word" part-of-speech (((phones) stress) ...)). What is no
// such line, or has a phone that English does not have, is left out and counted. Pure.
#include "common/lexicon/dictionary.h"

#include <istream>

namespace vh::lexicon
{

struct FestivalEntries {
    std::vector<Dictionary::Entry> entries; ///< words in lower case
    std::size_t leftOut = 0;
};
FestivalEntries festivalEntries(std::istream& file);

} // namespace vh::lexicon
