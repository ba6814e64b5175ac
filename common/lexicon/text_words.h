#pragma once
// A text as words to be said, and as sentences. Pure; any thread.
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace vh::lexicon
{

/// Bytes [begin, end) of the text, and what is said there: one word of a-z and apostrophes, or a number's words.
struct TextWord {
    std::size_t begin = 0;
    std::size_t end = 0;
    std::vector<std::string> spoken; ///< lower case, without accents; never empty
};

/// In order. Runs of Latin letters and apostrophes (’ and ' inside a word), runs of digits (commas between thousands
/// belong to them); everything else parts words, hyphens too. Accents are taken off for saying; letters of other
/// alphabets are no words here.
std::vector<TextWord> wordsOf(std::string_view text);

/// Sentences [begin, end): ended by . ! ? or …, several of them together, or by a blank line; what has no word in it is
/// none. A full stop between digits, and behind one letter (initials), ends nothing.
struct Sentence {
    std::size_t begin = 0;
    std::size_t end = 0;
};
std::vector<Sentence> sentencesOf(std::string_view text);

} // namespace vh::lexicon
