#include "common/lexicon/letter_tree.h"

#include "common/lexicon/spelling.h"

#include <algorithm>

namespace vh::lexicon
{

namespace
{

constexpr std::size_t kNodeBytes = 8;
constexpr std::uint16_t kBase = kPhones + 1;

} // namespace

std::uint16_t labelOf(std::span<const Phone> phones)
{
    std::uint16_t label = 0;
    for (const Phone phone : phones)
        label = static_cast<std::uint16_t>(label * kBase + static_cast<std::uint16_t>(phone) + 1);
    return label;
}

std::vector<Phone> phonesOfLabel(std::uint16_t label)
{
    std::vector<Phone> phones;
    if (label >= kBase)
        phones.push_back(static_cast<Phone>(label / kBase - 1));
    if (label % kBase > 0)
        phones.push_back(static_cast<Phone>(label % kBase - 1));
    return phones;
}

std::string prepared(std::string_view word)
{
    std::string letters(word);
    if (plainSpelling(word) != word)
        return letters;
    for (const Nucleus& nucleus : nucleiOf(letters))
        if (nucleus.begin < nucleus.end)
            letters[nucleus.begin] = static_cast<char>(letters[nucleus.begin] - 'a' + 'A');
    return letters;
}

char letterAt(std::string_view word, std::size_t at, int by)
{
    const auto where = static_cast<std::ptrdiff_t>(at) + by;
    return where < 0 || where >= static_cast<std::ptrdiff_t>(word.size()) ? LetterTree::kOutside
                                                                          : word[static_cast<std::size_t>(where)];
}

template <class Fits>
std::uint16_t LetterTree::labelAt(std::string_view prepared, std::size_t at, Fits fits, std::uint16_t otherwise) const
{
    const Node* node = m_nodes.data();
    std::uint16_t label = fits(node->label) ? node->label : otherwise;
    for (const int by : kOrder) {
        const char letter = letterAt(prepared, at, by);
        const Node* first = m_nodes.data() + node->firstChild;
        const Node* last = first + node->children;
        const Node* child =
            std::lower_bound(first, last, letter, [](const Node& one, char wanted) { return one.letter < wanted; });
        if (child == last || child->letter != letter)
            break;
        node = child;
        if (fits(node->label))
            label = node->label;
    }
    return label;
}

std::vector<Phone> LetterTree::phonesFor(std::string_view word) const
{
    if (m_nodes.empty())
        return {};
    const std::string letters = prepared(word);
    const auto isCapital = [](char letter) { return letter >= 'A' && letter <= 'Z'; };
    const auto byTree = [](char, std::uint16_t) { return true; };
    const auto byRule = [&](char letter, std::uint16_t label) {
        const auto given = phonesOfLabel(label);
        return (std::count_if(given.begin(), given.end(), isVowel) == 1) == isCapital(letter);
    };
    std::vector<Phone> phones = phonesOf(letters, byTree);
    const auto vowels = std::count_if(phones.begin(), phones.end(), isVowel);
    const bool ruled = plainSpelling(word) == word;
    return ruled && vowels != std::count_if(letters.begin(), letters.end(), isCapital) ? phonesOf(letters, byRule)
                                                                                       : phones;
}

template <class Fits>
std::vector<Phone> LetterTree::phonesOf(std::string_view prepared, Fits fits) const
{
    std::vector<Phone> phones;
    for (std::size_t at = 0; at < prepared.size(); ++at) {
        const auto fitsHere = [&](std::uint16_t label) { return fits(prepared[at], label); };
        const bool vowel = prepared[at] >= 'A' && prepared[at] <= 'Z';
        const std::uint16_t otherwise = vowel ? labelOf(std::array{Phone::ax}) : kSilent;
        for (const Phone phone : phonesOfLabel(labelAt(prepared, at, fitsHere, otherwise)))
            phones.push_back(phone);
    }
    return phones;
}

std::string LetterTree::bytes() const
{
    std::string bytes;
    bytes.reserve(m_nodes.size() * kNodeBytes);
    for (const Node& node : m_nodes) {
        for (int shift = 24; shift >= 0; shift -= 8)
            bytes.push_back(static_cast<char>(node.firstChild >> shift));
        bytes.push_back(static_cast<char>(node.label >> 8));
        bytes.push_back(static_cast<char>(node.label));
        bytes.push_back(node.letter);
        bytes.push_back(static_cast<char>(node.children));
    }
    return bytes;
}

Result<LetterTree> LetterTree::fromBytes(std::span<const std::uint8_t> bytes)
{
    if (bytes.empty() || bytes.size() % kNodeBytes != 0)
        return fail("damaged", "The letters' tree is cut short.");
    std::vector<Node> nodes(bytes.size() / kNodeBytes);
    for (std::size_t i = 0; i < nodes.size(); ++i) {
        const auto at = bytes.subspan(i * kNodeBytes, kNodeBytes);
        Node& node = nodes[i];
        for (std::size_t k = 0; k < 4; ++k)
            node.firstChild = node.firstChild << 8 | at[k];
        node.label = static_cast<std::uint16_t>(at[4] << 8 | at[5]);
        node.letter = static_cast<char>(at[6]);
        node.children = at[7];
        const bool fits =
            node.children == 0 || (node.firstChild > i && node.firstChild + node.children <= nodes.size());
        if (!fits || node.label >= kBase * kBase)
            return fail("damaged", "The letters' tree is damaged.");
    }
    return LetterTree(std::move(nodes));
}

} // namespace vh::lexicon
