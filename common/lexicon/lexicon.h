#pragma once
// How any English word is said: from the dictionary; else built from words that are in it (plurals and other endings,
// possessives, compounds, British spellings); else letter by letter. Says which, so that a reader may doubt. Also which
// letters of a word hold the vowel of its stressed syllable. Reads from bytes that outlive it. Const; any thread.
#include "common/lexicon/alignment.h"
#include "common/lexicon/dictionary.h"

#include <optional>

namespace vh::lexicon
{

enum class Source : std::uint8_t { dictionary, builtFromParts, letters };

struct Said {
    Pronunciation syllables; ///< never empty
    Source source = Source::dictionary;
};

/// Bytes [begin, end) of a word.
struct LetterRange {
    std::size_t begin = 0;
    std::size_t end = 0;
    friend bool operator==(const LetterRange&, const LetterRange&) = default;
};

class Lexicon
{
public:
    /// What pack() made. Damaged bytes are refused as a whole.
    static Result<Lexicon> fromBytes(std::span<const std::uint8_t> bytes);
    /// Learns letters from these entries, too.
    static std::string pack(const std::vector<Dictionary::Entry>& entries);

    /// A word of letters a-z of either case and apostrophes; nothing when there is no such letter in it.
    [[nodiscard]] std::optional<Said> say(std::string_view word) const;
    [[nodiscard]] const Dictionary& dictionary() const { return m_dictionary; }
    /// The letters that are the vowel of each syllable, in order; empty where letters and sounds cannot be matched.
    [[nodiscard]] std::vector<LetterRange> vowelLetters(std::string_view word, const Pronunciation& said) const;

private:
    [[nodiscard]] std::optional<Pronunciation> first(std::string_view word) const;
    [[nodiscard]] std::optional<Pronunciation> asInAmerica(std::string_view word) const;
    [[nodiscard]] std::optional<Pronunciation> withEnding(std::string_view word) const;
    [[nodiscard]] std::optional<Pronunciation> compound(std::string_view word) const;
    [[nodiscard]] Pronunciation byLetters(std::string_view word) const;

    Dictionary m_dictionary;
    Alignment m_alignment;
    LetterTree m_tree;
};

/// American English: the CMU Pronouncing Dictionary 0.4 as Debian's festlex-cmu carries it, packed when the program was
/// built. Its licence: docs/licences/cmudict.txt.
const Lexicon& english();

} // namespace vh::lexicon
