#include "common/lexicon/spelling.h"

#include <algorithm>
#include <array>
#include <utility>

namespace vh::lexicon
{

namespace
{

using Respelling = std::pair<std::string_view, std::string_view>;

/// Sorted. Words whose spelling hides how many syllables they have.
constexpr std::array kRespellings{
    Respelling{"area", "airia"},        Respelling{"being", "beeing"},    Respelling{"business", "bizniss"},
    Respelling{"chocolate", "choclat"}, Respelling{"create", "criate"},   Respelling{"diamond", "dimond"},
    Respelling{"evening", "eevning"},   Respelling{"every", "evry"},      Respelling{"eye", "ie"},
    Respelling{"eyes", "ies"},          Respelling{"friend", "frend"},    Respelling{"friends", "frends"},
    Respelling{"idea", "idia"},         Respelling{"ideas", "idias"},     Respelling{"lion", "lian"},
    Respelling{"lions", "lians"},       Respelling{"mr", "mister"},       Respelling{"mrs", "missiz"},
    Respelling{"museum", "muziam"},     Respelling{"ocean", "oshan"},     Respelling{"people", "peepul"},
    Respelling{"poem", "poam"},         Respelling{"poems", "poams"},     Respelling{"poet", "poat"},
    Respelling{"recipe", "recipy"},     Respelling{"recipes", "recipiz"}, Respelling{"ruin", "ruan"},
    Respelling{"science", "sians"},     Respelling{"soldier", "soljer"},  Respelling{"thermos", "thermos"},
    Respelling{"violin", "vialin"},
};

/// First halves of compounds: their last e is silent.
constexpr auto kFirstHalves = std::to_array<std::string_view>(
    {"some",  "home", "lake",  "time",  "life", "fire", "side", "base",  "house", "horse", "fore",
     "where", "cake", "plate", "there", "wide", "gate", "safe", "stone", "voice", "middle"});
constexpr auto kEndings =
    std::to_array<std::string_view>({"ly", "less", "ness", "ful", "fully", "ment", "ments", "ty", "lessly"});

bool isVowelLetter(char c)
{
    return c == 'a' || c == 'e' || c == 'i' || c == 'o' || c == 'u';
}

/// One word, asked about letter by letter; outside it are zeros.
class Word
{
public:
    explicit Word(std::string_view word) : m_word(word) {}

    [[nodiscard]] std::size_t size() const { return m_word.size(); }
    [[nodiscard]] char at(std::size_t i) const { return i < m_word.size() ? m_word[i] : '\0'; }
    [[nodiscard]] char before(std::size_t i, std::size_t back = 1) const { return i >= back ? m_word[i - back] : '\0'; }
    [[nodiscard]] bool has(std::size_t i, std::string_view text) const
    {
        return m_word.substr(std::min(i, size())).starts_with(text);
    }
    [[nodiscard]] bool endsWith(std::string_view text, std::size_t from) const
    {
        return m_word.substr(std::min(from, size())) == text;
    }

    [[nodiscard]] bool isVowel(std::size_t i) const
    {
        const char c = at(i);
        if (c == 'u' && before(i) == 'q')
            return false;
        if (c == 'u' && before(i) == 'g' && isVowelLetter(at(i + 1)))
            return false;
        if (c != 'y')
            return isVowelLetter(c);
        const bool vowelFollows = isVowelLetter(at(i + 1));
        if (i == 0)
            return !vowelFollows;
        if (isVowelLetter(before(i)))
            return !vowelFollows;
        return !vowelFollows || at(i + 1) == 'i' || at(i + 1) == 'e';
    }
    [[nodiscard]] bool isConsonant(std::size_t i) const { return i < size() && at(i) != '\'' && !isVowel(i); }
    [[nodiscard]] bool hasVowelBefore(std::size_t i) const
    {
        for (std::size_t k = 0; k < i; ++k)
            if (isVowel(k))
                return true;
        return false;
    }
    [[nodiscard]] bool isSilentE(std::size_t i) const;
    [[nodiscard]] std::size_t groupLength(std::size_t i) const;

private:
    [[nodiscard]] bool isSilentLastE(std::size_t i, std::string_view ending) const;
    [[nodiscard]] bool isOneSound(std::size_t i) const;
    [[nodiscard]] bool isOneSoundFromI(std::size_t i) const;
    [[nodiscard]] bool isOneSoundFromU(std::size_t i) const;

    std::string_view m_word;
};

/// An e after a consonant with nothing but `ending` behind it.
bool Word::isSilentLastE(std::size_t i, std::string_view ending) const
{
    const char c = before(i);
    const char further = before(i, 2);
    const bool afterConsonant = i >= 2 && isConsonant(i - 2) && further != c;
    if ((c == 'l' || (c == 'r' && further != 'w' && ending.empty())) && afterConsonant && further != 'r')
        return false; // table, centre
    if (ending == "d")
        return c != 't' && c != 'd';
    if (ending == "s") {
        const bool hisses = c == 's' || c == 'x' || c == 'z' || c == 'c' || c == 'g';
        return !hisses && !(c == 'h' && (further == 'c' || further == 's'));
    }
    return true;
}

bool Word::isSilentE(std::size_t i) const
{
    if (at(i) != 'e' || !(isConsonant(i - 1) || before(i) == 'y') || !hasVowelBefore(i - (before(i) == 'y' ? 0 : 1)))
        return false;
    for (const std::string_view ending : {"", "d", "s", "'s"})
        if (endsWith(ending, i + 1))
            return isSilentLastE(i, ending == "'s" ? "s" : ending);
    if (isVowel(i + 1))
        return false;
    const bool oneConsonant = i >= 2 && isVowel(i - 2);
    if (oneConsonant && std::any_of(kEndings.begin(), kEndings.end(), [&](auto each) { return endsWith(each, i + 1); }))
        return true;
    return size() >= i + 3 && std::any_of(kFirstHalves.begin(), kFirstHalves.end(),
                                          [&](std::string_view each) { return each.size() == i + 1 && has(0, each); });
}

bool Word::isOneSoundFromI(std::size_t i) const
{
    const char c = before(i);
    const char next = at(i + 1);
    if (c == 'l' || c == 'n') // a y by sound: million, onion, familiar
        if ((next == 'o' || next == 'a' || next == 'u') && hasVowelBefore(i) && i + 2 < size())
            return true;
    const bool soft = c == 'c' || c == 't' || c == 's' || c == 'g' || c == 'x';
    switch (next) {
    case 'o':
        return soft && hasVowelBefore(i) && (at(i + 2) == 'n' || at(i + 2) == 'u');
    case 'a':
        if (has(i, "iage"))
            return true;
        return soft && hasVowelBefore(i) && at(i + 2) != 't';
    case 'e':
        if (has(i, "iet"))
            return false;
        if (has(i, "ien"))
            return (c == 'c' || c == 't' || c == 'n') && hasVowelBefore(i);
        if (endsWith("ier", i) || endsWith("iest", i) || endsWith("iers", i))
            return !hasVowelBefore(i);
        return true;
    default:
        return false; // iu, ii
    }
}

bool Word::isOneSoundFromU(std::size_t i) const
{
    const char after = at(i + 2);
    switch (at(i + 1)) {
    case 'e':
        return !((after == 'l' || after == 'n' || after == 't' || after == 'r') && i > 0);
    case 'i':
        if (after == 'n' || after == 'd')
            return false;
        return !(after == 't' && (at(i + 3) == 'i' || at(i + 3) == 'y' || at(i + 3) == 'o'));
    case 'y':
        return true;
    default:
        return false; // ua, uo, uu
    }
}

/// Whether the vowels i and i + 1 make one syllable.
bool Word::isOneSound(std::size_t i) const
{
    const char next = at(i + 1);
    if (next == 'i' && endsWith("ing", i + 1) && i > 0)
        return false; // going, seeing
    switch (at(i)) {
    case 'a':
        return next != 'o';
    case 'e':
        if (next == 'o')
            return has(i, "eon") ? before(i) == 'g' : has(i, "eous") && before(i) == 'g';
        if (next == 'u')
            return at(i + 2) != 'm';
        return !has(0, "react") && (!has(0, "crea") || has(0, "creatu") || has(0, "cream"));
    case 'i':
        return isOneSoundFromI(i);
    case 'o':
        return !(next == 'e' && (at(i + 2) == 't' || at(i + 2) == 'i' || at(i + 2) == 'v'));
    case 'u':
        return isOneSoundFromU(i);
    default:
        return next == 'e' && i + 2 >= size(); // bye
    }
}

/// Of the vowels from i on, how many letters make one syllable: 1, 2 or, as in "beauty", 3.
std::size_t Word::groupLength(std::size_t i) const
{
    if (!isVowel(i + 1) || !isOneSound(i))
        return 1;
    const bool third =
        has(i, "eau") || has(i, "ieu") || has(i, "iou") || has(i, "uee") || has(i, "aye") || has(i, "eye");
    return third ? 3 : 2;
}

} // namespace

std::string plainSpelling(std::string_view word)
{
    const auto found =
        std::lower_bound(kRespellings.begin(), kRespellings.end(), word,
                         [](const Respelling& each, std::string_view text) { return each.first < text; });
    if (found != kRespellings.end() && found->first == word)
        return std::string(found->second);
    if (word.starts_with("every") && word.size() > 5)
        return "evri" + std::string(word.substr(5));
    return std::string(word);
}

std::vector<Nucleus> nucleiOf(std::string_view text)
{
    const Word word(text);
    std::vector<Nucleus> nuclei;
    for (std::size_t i = 0; i < word.size();) {
        if (!word.isVowel(i)) {
            // didn't, and the m of rhythm
            const bool ownNt = word.has(i, "n't") && (word.before(i) == 'd' || word.before(i) == 's');
            const bool ownM = word.at(i) == 'm' &&
                              (word.before(i) == 's' || (word.before(i) == 'h' && word.before(i, 2) == 't')) &&
                              !word.isVowel(i + 1) && !nuclei.empty();
            if (ownNt || ownM)
                nuclei.push_back({i, i});
            ++i;
            continue;
        }
        if (word.isSilentE(i)) {
            ++i;
            continue;
        }
        const std::size_t length = word.groupLength(i);
        nuclei.push_back({i, i + length});
        i += length;
    }
    if (nuclei.empty() && !text.empty())
        nuclei.push_back({text.size(), text.size()});
    return nuclei;
}

} // namespace vh::lexicon
