#include "common/lexicon/back_lines.h"

#include "common/lexicon/lexicon.h"

#include <algorithm>
#include <array>
#include <string_view>

namespace vh::lexicon
{

namespace
{

constexpr std::array<std::string_view, 2> kBegin{"k", "g"};
constexpr std::array<std::string_view, 8> kVowels{"a", "i", "o", "u", "ee", "aw", "oo", "ay"};
constexpr std::array<std::string_view, 4> kEnd{"ck", "g", "ng", ""};
constexpr std::size_t kShortVowels = 4; // the first of them: they do not end a word
/// Words to leave alone: rude, unkind, or nothing to say with a sore throat.
constexpr std::array<std::string_view, 16> kNot{"gook", "kock", "kack",   "kuck", "gag",   "gock",  "kawck", "gawck",
                                                "gack", "guck", "gooock", "kook", "koock", "goock", "gung",  "kag"};

/// Spread evenly; SplitMix64 (Steele, Lea & Flood 2014).
class Dice
{
public:
    explicit Dice(std::uint64_t seed) : m_state(seed) {}
    std::size_t below(std::size_t most)
    {
        m_state += 0x9E3779B97F4A7C15U;
        std::uint64_t mixed = m_state;
        mixed = (mixed ^ (mixed >> 30)) * 0xBF58476D1CE4E5B9U;
        mixed = (mixed ^ (mixed >> 27)) * 0x94D049BB133111EBU;
        return (mixed ^ (mixed >> 31)) % most;
    }

private:
    std::uint64_t m_state;
};

struct Parts {
    std::size_t begin = 0;
    std::size_t vowel = 0;
    std::size_t end = 0;
};

std::string written(const Parts& parts)
{
    std::string_view end = kEnd[parts.end];
    if (end.empty() && parts.vowel < kShortVowels)
        end = "g";
    if (end == "ck" && parts.vowel >= kShortVowels)
        end = "k"; // "keek", not "keeck"
    return std::string(kBegin[parts.begin]) + std::string(kVowels[parts.vowel]) + std::string(end);
}

bool isKind(const std::string& word)
{
    return std::find(kNot.begin(), kNot.end(), word) == kNot.end();
}

/// Read as it is meant: "gee" would begin as "jeans" does.
bool isPlain(const std::string& word)
{
    const auto said = english().say(word);
    if (!said || said->syllables.size() != 1)
        return false;
    const auto& phones = said->syllables.front().phones;
    const bool ends = word.back() == 'k' || word.back() == 'g';
    return phones.front() == (word.front() == 'k' ? Phone::k : Phone::g) && (!ends || isBackOfTongue(phones.back()));
}

/// Three or four syllables in which one thing changes; empty when one of them is none to say.
std::vector<std::string> row(Dice& dice)
{
    const std::size_t length = 3 + dice.below(2);
    const bool vowelGoesRound = dice.below(3) > 0;
    Parts parts{dice.below(kBegin.size()), dice.below(kVowels.size()), dice.below(kEnd.size())};
    std::vector<std::string> words;
    for (std::size_t i = 0; i < length; ++i) {
        words.push_back(written(parts));
        if (vowelGoesRound)
            parts.vowel = (parts.vowel + 1) % kVowels.size();
        else
            parts.begin = 1 - parts.begin;
        if (!vowelGoesRound && i % 2 == 1)
            parts.end = (parts.end + 1) % kEnd.size();
    }
    const bool kind =
        std::all_of(words.begin(), words.end(), [](const std::string& word) { return isKind(word) && isPlain(word); });
    return kind ? words : std::vector<std::string>{};
}

std::string line(const std::vector<std::string>& words)
{
    std::string text;
    for (const std::string& word : words)
        text += (text.empty() ? "" : ", ") + word;
    text.front() = static_cast<char>(text.front() - 'a' + 'A');
    return text + '.';
}

} // namespace

std::vector<std::string> backLines(std::uint64_t seed, int count)
{
    Dice dice(seed);
    std::vector<std::string> lines;
    while (static_cast<int>(lines.size()) < count) {
        const auto words = row(dice);
        const std::string made = words.empty() ? std::string() : line(words);
        if (!made.empty() && std::find(lines.begin(), lines.end(), made) == lines.end())
            lines.push_back(made);
    }
    return lines;
}

} // namespace vh::lexicon
