#pragma once
// From letters to phones for words that no dictionary has: each letter gives none, one or two phones, and which it
// gives is looked up by the letters around it, as far out as they matter (a decision tree over letters in a fixed
// order, an information-gain tree: Daelemans, van den Bosch & Weijters 1997). How many syllables there are is
// for the spelling rules to say (spelling.h): they were measured to be the better judge of it. Learned from a
// dictionary when the program is built (letter_training.h). Plain value; reading is const and may be done on any
// thread.
#include "common/base/result.h"
#include "common/lexicon/pronunciation.h"

#include <span>
#include <string>

namespace vh::lexicon
{

class LetterTree
{
public:
    static constexpr std::array<int, 9> kOrder{0, 1, -1, 2, -2, 3, -3, 4, -4}; ///< letters asked for, by distance
    static constexpr std::uint16_t kSilent = 0;
    static constexpr char kOutside = '#'; ///< before and behind the word

    struct Node {
        std::uint32_t firstChild = 0; ///< in m_nodes; children of one node lie together, by letter
        std::uint16_t label = kSilent;
        char letter = 0; ///< that leads here
        std::uint8_t children = 0;
    };

    LetterTree() = default;
    explicit LetterTree(std::vector<Node> nodes) : m_nodes(std::move(nodes)) {}

    /// For a word of a-z and apostrophes.
    [[nodiscard]] std::vector<Phone> phonesFor(std::string_view word) const;

    [[nodiscard]] std::string bytes() const;
    static Result<LetterTree> fromBytes(std::span<const std::uint8_t> bytes);
    [[nodiscard]] std::size_t size() const { return m_nodes.size(); }

private:
    template <class Fits>
    [[nodiscard]] std::vector<Phone> phonesOf(std::string_view prepared, Fits fits) const;
    /// The deepest node's label that `fits`; `otherwise` when there is none.
    template <class Fits>
    [[nodiscard]] std::uint16_t labelAt(std::string_view prepared, std::size_t at, Fits fits,
                                        std::uint16_t otherwise) const;

    std::vector<Node> m_nodes; ///< the root first
};

/// Labels: 0, or phone + 1, or (first phone + 1) * 41 + second phone + 1.
std::uint16_t labelOf(std::span<const Phone> phones);
std::vector<Phone> phonesOfLabel(std::uint16_t label);
/// What the tree looks at: the word with a capital for each letter that begins a syllable's vowel by the spelling rules
/// (spelling.h), which see farther than the letters next door. As it is where those rules read a word differently.
std::string prepared(std::string_view word);
/// The letter at `at + by` of a prepared word, or LetterTree::kOutside.
char letterAt(std::string_view word, std::size_t at, int by);

} // namespace vh::lexicon
