#include "common/lexicon/back_lines.h"

#include "common/lexicon/lexicon.h"

#include <algorithm>
#include <array>
#include <set>
#include <string_view>

namespace vh::lexicon
{

namespace
{

constexpr std::array<std::string_view, 4> kBegin{"k", "g", "kl", "gl"};
constexpr std::array<std::string_view, 8> kVowels{"a", "i", "o", "u", "ee", "aw", "oo", "ay"};
constexpr std::array<std::string_view, 4> kEnd{"ck", "g", "ng", ""};
constexpr std::size_t kShortVowels = 4; // the first of them: they do not end a word
/// Words to leave alone: rude, unkind, a name, or nothing to say with a sore throat.
constexpr std::array<std::string_view, 22> kNot{"gook", "kock", "kack", "kuck",  "gag",  "gock",  "kawck", "gawck",
                                                "gack", "guck", "gay",  "gayk",  "gayg", "gayng", "kook",  "geek",
                                                "gung", "kag",  "gloc", "glock", "klee", "kluck"};

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

/// Every syllable that may be in a line, by its parts; empty where it may not.
class Syllables
{
public:
    Syllables()
    {
        for (std::size_t begin = 0; begin < kBegin.size(); ++begin)
            for (std::size_t vowel = 0; vowel < kVowels.size(); ++vowel)
                for (std::size_t end = 0; end < kEnd.size(); ++end) {
                    const bool ends = !kEnd[end].empty() || vowel >= kShortVowels;
                    const std::string word = written({begin, vowel, end});
                    if (ends && isKind(word) && isPlain(word))
                        m_words[begin][vowel][end] = word;
                }
    }
    [[nodiscard]] const std::string& at(const Parts& parts) const
    {
        return m_words[parts.begin][parts.vowel][parts.end];
    }

private:
    std::array<std::array<std::array<std::string, kEnd.size()>, kVowels.size()>, kBegin.size()> m_words;
};

/// How a row goes on from one syllable to the next.
struct Walk {
    std::size_t vowelsOn = 0;
    bool beginsChange = false; ///< k to g, kl to gl
    bool endsChange = false;   ///< after every second one
};
constexpr std::array<Walk, 6> kWalks{{{1}, {2}, {3}, {5}, {0, true, true}, {1, true}}};

/// "Kig, kag, kong."; empty when a syllable of it may not be said.
std::string line(const Syllables& syllables, Parts parts, const Walk& walk, std::size_t length)
{
    std::string text;
    for (std::size_t i = 0; i < length; ++i) {
        const std::string& word = syllables.at(parts);
        if (word.empty())
            return {};
        text += (i > 0 ? ", " : "") + word;
        parts.vowel = (parts.vowel + walk.vowelsOn) % kVowels.size();
        if (walk.beginsChange)
            parts.begin ^= 1U;
        if (walk.endsChange && i % 2 == 1)
            parts.end = (parts.end + 1) % kEnd.size();
    }
    text.front() = static_cast<char>(text.front() - 'a' + 'A');
    return text + '.';
}

/// All lines there are, in an order in which neighbours have little in common.
std::vector<std::string> allLines()
{
    const Syllables syllables;
    std::vector<std::string> lines;
    std::set<std::string> known;
    for (std::size_t begin = 0; begin < kBegin.size(); ++begin)
        for (std::size_t vowel = 0; vowel < kVowels.size(); ++vowel)
            for (std::size_t end = 0; end < kEnd.size(); ++end)
                for (const Walk& walk : kWalks)
                    for (const std::size_t length : {3U, 4U})
                        if (std::string made = line(syllables, {begin, vowel, end}, walk, length);
                            !made.empty() && known.insert(made).second)
                            lines.push_back(std::move(made));
    Dice dice(1);
    for (std::size_t i = lines.size(); i > 1; --i) // Fisher and Yates
        std::swap(lines[i - 1], lines[dice.below(i)]);
    return lines;
}

} // namespace

std::vector<std::string> backLines(std::uint64_t day, int count)
{
    static const std::vector<std::string> kAll = allLines();
    // An odd number, so that steps of a power of two reach all of them before they come back.
    static const std::size_t days = (kAll.size() / kLinesADay - 1) | 1U;
    std::vector<std::string> lines;
    for (std::size_t i = 0; i < std::min(static_cast<std::size_t>(std::max(count, 0)), days * kLinesADay); ++i) {
        const std::size_t there = (day + i / kLinesADay * (kDaysApart + 1)) % days;
        lines.push_back(kAll[there * kLinesADay + i % kLinesADay]);
    }
    return lines;
}

} // namespace vh::lexicon
