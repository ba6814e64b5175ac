#pragma once
// English spelling to syllables by rule: which letters of a word are vowels, which of those are silent, and where a
// group of vowels is two syllables. About nine words in ten come out with the right number (docs/voices.md has the
// figure against a pronouncing dictionary); common words that break the rules are listed. Pure; any thread.
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace vh::lexicon
{

/// One syllable's vowel letters in a lower-case word: [begin, end). `bare`: a syllable without a vowel of its own
/// ("rhythm"), begin == end.
struct Nucleus {
    std::size_t begin = 0;
    std::size_t end = 0;
    friend bool operator==(const Nucleus&, const Nucleus&) = default;
};

/// The word as it is read out by the rules: itself, or a plainer spelling of one that breaks them.
[[nodiscard]] std::string plainSpelling(std::string_view word);
/// For a word of a-z and apostrophes, as plainSpelling gave it. Never empty for a word with a letter.
[[nodiscard]] std::vector<Nucleus> nucleiOf(std::string_view word);

} // namespace vh::lexicon
