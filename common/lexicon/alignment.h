#pragma once
// Which letter of a word gives which of its phones. How likely each letter gives each label (letter_tree.h) is found by
// expectation maximisation over all ways to cut the words of a dictionary (as in Black, Lenzo & Pagel 1998, "Issues in
// building general letter to sound rules"). Plain value; reading is const and may be done on any thread.
#include "common/lexicon/letter_tree.h"

namespace vh::lexicon
{

struct Spoken {
    std::string word; ///< a-z and apostrophes
    std::vector<Phone> phones;
};

class Alignment
{
public:
    Alignment();
    /// Words that cannot be cut so (more than two phones a letter) teach nothing. Deterministic.
    static Alignment learnt(const std::vector<Spoken>& words);
    /// The likeliest label of each letter; empty where the word cannot be cut so.
    [[nodiscard]] std::vector<std::uint16_t> labels(std::string_view word, std::span<const Phone> phones) const;

    [[nodiscard]] std::string bytes() const;
    static Result<Alignment> fromBytes(std::span<const std::uint8_t> bytes);

private:
    [[nodiscard]] double of(char letter, std::span<const Phone> phones) const;
    void count(const Spoken& word, std::vector<double>& counts) const;
    void take(const std::vector<double>& counts);

    std::vector<float> m_table; ///< by letter and label
};

} // namespace vh::lexicon
