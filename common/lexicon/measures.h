#pragma once
// What can be counted in a text that is to be said: syllables, sounds made with the back of the tongue, how easy it
// reads, and which vowels are worth stretching. English only. Pure; any thread.
#include "common/lexicon/lexicon.h"
#include "common/lexicon/text_words.h"

namespace vh::lexicon
{

struct TextMeasures {
    int words = 0;
    int sentences = 0;
    int syllables = 0;
    int unsure = 0;       ///< words that were said letter by letter
    int backOfTongue = 0; ///< k, g and ng in them
    /// Flesch (1948): 206.835 - 1.015 words/sentence - 84.6 syllables/word; 0 for no words.
    double readingEase = 0;
    /// Kincaid, Fishburne, Rogers & Chissom (1975): 0.39 words/sentence + 11.8 syllables/word - 15.59.
    double gradeLevel = 0;
};
TextMeasures measure(std::string_view text, const Lexicon& lexicon);

/// Syllables of one word of a text (a number has several words).
int syllablesOf(const TextWord& word, const Lexicon& lexicon);

enum class Where : std::uint8_t { begins, inside, ends };
/// A k, g or ng of a word, and where in it.
struct BackSound {
    std::size_t word = 0; ///< of wordsOf(text)
    Phone phone = Phone::k;
    Where where = Where::inside;
};
std::vector<BackSound> backSounds(std::string_view text, const Lexicon& lexicon);

/// The letters, bytes [begin, end) of the text, of stressed vowels that can be held: all but the short ones of "bit",
/// "bet", "book" and "about" (checked vowels: Ladefoged & Johnson, A Course in Phonetics). Words of two syllables and
/// more, and words of one that carry meaning; at most one a word.
std::vector<LetterRange> stretchable(std::string_view text, const Lexicon& lexicon);

/// At `syllablesPerSecond`, with a pause of `pauseSeconds` at each comma, colon, semicolon, dash and end of sentence
/// but the last. Seconds.
double speakingSeconds(std::string_view text, const Lexicon& lexicon, double syllablesPerSecond, double pauseSeconds);

} // namespace vh::lexicon
