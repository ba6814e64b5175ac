#include "common/voice/letters.h"

#include "common/lexicon/spelling.h"

#include <algorithm>
#include <string>

namespace vh::voice
{

using lexicon::nucleiOf;
using lexicon::Nucleus;
using lexicon::plainSpelling;

namespace
{

/// A word of the text: lower-case letters of a-z and apostrophes, and where each stands.
struct Word {
    std::string letters;
    std::vector<std::uint32_t> at;
    std::uint32_t end = 0;
};

constexpr std::array<std::string_view, 20> kOnes{
    "zero", "one",    "two",    "three",    "four",     "five",    "six",     "seven",     "eight",    "nine",
    "ten",  "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"};
constexpr std::array<std::string_view, 10> kTens{"",      "",      "twenty",  "thirty", "forty",
                                                 "fifty", "sixty", "seventy", "eighty", "ninety"};

std::vector<std::string_view> readOut(std::string_view digits)
{
    std::vector<std::string_view> words;
    if (digits.size() <= 2 && (digits.size() == 1 || digits.front() != '0')) {
        const int value = std::stoi(std::string(digits));
        if (value < 20)
            return {kOnes[static_cast<std::size_t>(value)]};
        words.push_back(kTens[static_cast<std::size_t>(value / 10)]);
        if (value % 10 > 0)
            words.push_back(kOnes[static_cast<std::size_t>(value % 10)]);
        return words;
    }
    for (const char digit : digits)
        words.push_back(kOnes[static_cast<std::size_t>(digit - '0')]);
    return words;
}

/// The letter of a-z that a character of Latin-1 is near to, by its second byte in UTF-8 after 0xC3; 0 for none. An e
/// with an accent is an i, which is never silent.
char plainLetter(unsigned char second)
{
    static constexpr std::string_view kPlain = "aaaaaaaciiiiiiiidnooooo*ouuuuy*saaaaaaaciiiiiiiidnooooo*ouuuuy*y";
    const char plain = second >= 0x80 && second < 0xC0 ? kPlain[second - 0x80U] : '*';
    return plain == '*' ? '\0' : plain;
}

struct Vowel {
    Phone from;
    Phone to;
};

using enum Phone;

Vowel vowelOf(std::string_view spelt, char next, bool lastLetter, bool beforeSilentE)
{
    struct Row {
        std::string_view spelt;
        Vowel vowel;
    };
    static constexpr std::array kRows{
        Row{"ai", {head, heed}},   Row{"ay", {head, heed}},  Row{"ei", {head, heed}},  Row{"ey", {head, heed}},
        Row{"au", {hawed, hawed}}, Row{"aa", {hod, hod}},    Row{"ee", {heed, heed}},  Row{"ea", {heed, heed}},
        Row{"ie", {heed, heed}},   Row{"oa", {hawed, hood}}, Row{"oe", {hawed, hood}}, Row{"oi", {hawed, hid}},
        Row{"oy", {hawed, hid}},   Row{"oo", {whod, whod}},  Row{"ou", {hod, hood}},   Row{"ue", {whod, whod}},
        Row{"ui", {whod, whod}},   Row{"eu", {whod, whod}},  Row{"ew", {whod, whod}},  Row{"", {hud, hud}},
    };
    for (const Row& row : kRows)
        if (row.spelt == spelt)
            return row.vowel;
    const char c = spelt.front();
    if (next == 'r' && !beforeSilentE)
        return c == 'a' ? Vowel{hod, hod} : c == 'o' ? Vowel{hawed, hawed} : Vowel{heard, heard};
    switch (c) {
    case 'a':
        if (next == 'w' || next == 'l')
            return {hawed, hawed};
        if (next == 'h')
            return {hod, hod};
        return beforeSilentE ? Vowel{head, heed} : lastLetter ? Vowel{hud, hud} : Vowel{had, had};
    case 'e':
        return lastLetter ? Vowel{heed, heed} : next == 'w' ? Vowel{whod, whod} : Vowel{head, head};
    case 'i':
        return beforeSilentE ? Vowel{hod, heed} : Vowel{hid, hid};
    case 'o':
        if (next == 'w' || next == 'h')
            return {hawed, hood};
        return beforeSilentE || lastLetter ? Vowel{hawed, hood} : Vowel{hod, hod};
    case 'u':
        return beforeSilentE ? Vowel{whod, whod} : Vowel{hud, hud};
    default: // y
        return lastLetter ? Vowel{heed, heed} : Vowel{hid, hid};
    }
}

struct Consonants {
    std::vector<Phone> phones;
    std::size_t letters = 1;
};

Consonants consonantsAt(std::string_view word, std::size_t i)
{
    struct Row {
        std::string_view spelt;
        std::vector<Phone> phones;
    };
    static const std::vector<Row> kPairs{
        {"tch", {t, sh}}, {"sch", {s, k}}, {"ch", {t, sh}}, {"sh", {sh}},   {"th", {th}}, {"ph", {f}}, {"wh", {w}},
        {"ck", {k}},      {"ng", {ng}},    {"gh", {}},      {"qu", {k, w}}, {"kn", {n}},  {"wr", {r}}, {"dg", {d, zh}},
        {"bb", {b}},      {"dd", {d}},     {"ff", {f}},     {"gg", {g}},    {"ll", {l}},  {"mm", {m}}, {"nn", {n}},
        {"pp", {p}},      {"rr", {r}},     {"ss", {s}},     {"tt", {t}},    {"zz", {z}},  {"cc", {k}},
    };
    for (const Row& row : kPairs)
        if (word.substr(i).starts_with(row.spelt))
            return {row.phones, row.spelt.size()};
    const char next = i + 1 < word.size() ? word[i + 1] : '\0';
    const bool soft = next == 'e' || next == 'i' || next == 'y';
    switch (word[i]) {
    case 'b':
        return {{b}};
    case 'c':
        return soft ? Consonants{{s}} : Consonants{{k}};
    case 'd':
        return {{d}};
    case 'f':
        return {{f}};
    case 'g':
        return {{g}};
    case 'h':
        return i > 0 ? Consonants{{}} : Consonants{{h}};
    case 'j':
        return {{d, zh}};
    case 'k':
        return {{k}};
    case 'l':
        return {{l}};
    case 'm':
        return {{m}};
    case 'n':
        return {{n}};
    case 'p':
        return {{p}};
    case 'q':
        return {{k}};
    case 'r':
        return {{r}};
    case 's':
        return i + 1 == word.size() && i > 1 ? Consonants{{z}} : Consonants{{s}};
    case 't':
        return {{t}};
    case 'v':
        return {{v}};
    case 'w':
        return i > 0 && next == '\0' ? Consonants{{}} : Consonants{{w}};
    case 'x':
        return {{k, s}};
    case 'y':
        return {{y}};
    case 'z':
        return {{z}};
    default:
        return {{}}; // an apostrophe, or a vowel letter that is not sounded
    }
}

bool beforeSilentE(std::string_view word, std::size_t vowelEnd, const std::vector<Nucleus>& nuclei)
{
    const std::size_t e = vowelEnd + 1;
    return e < word.size() && word[e] == 'e' && std::none_of(nuclei.begin(), nuclei.end(), [&](const Nucleus& each) {
               return each.begin <= e && e < each.end;
           });
}

void speakWord(const Word& word, std::vector<Spoken>& spoken)
{
    const std::string plain = plainSpelling(word.letters);
    const std::vector<Nucleus> nuclei = nucleiOf(plain);
    // Where a letter of the plainer spelling stands in the text: as far into the word.
    const auto byteAt = [&](std::size_t letter) {
        const std::size_t there =
            plain.size() == word.letters.size() ? letter : letter * word.letters.size() / plain.size();
        return there < word.at.size() ? word.at[there] : word.end;
    };
    auto nucleus = nuclei.begin();
    for (std::size_t i = 0; i <= plain.size();) {
        if (nucleus != nuclei.end() && nucleus->begin == i) {
            const char next = nucleus->end < plain.size() ? plain[nucleus->end] : '\0';
            const Vowel vowel = vowelOf(std::string_view(plain).substr(i, nucleus->end - i), next,
                                        nucleus->end == plain.size(), beforeSilentE(plain, nucleus->end, nuclei));
            const std::uint32_t end = nucleus->end > i ? byteAt(nucleus->end - 1) + 1 : byteAt(i);
            spoken.push_back({vowel.from, vowel.to, true, false, byteAt(i), end});
            const bool bare = nucleus->end == i;
            i = nucleus->end;
            ++nucleus;
            if (!bare)
                continue;
        }
        if (i == plain.size())
            break;
        const Consonants consonants = consonantsAt(plain, i);
        for (const Phone phone : consonants.phones)
            spoken.push_back({phone, phone, false, false, byteAt(i), byteAt(i + consonants.letters - 1) + 1});
        i += consonants.letters;
    }
}

bool asksForPause(char c)
{
    return c == ',' || c == ';' || c == ':' || c == '.' || c == '!' || c == '?' || c == '\n';
}

Word wordAt(std::string_view text, std::size_t& i)
{
    Word word;
    for (; i < text.size(); ++i) {
        const char c = text[i];
        if ((c >= 'a' && c <= 'z') || (c == '\'' && !word.letters.empty()))
            word.letters += c;
        else if (c >= 'A' && c <= 'Z')
            word.letters += static_cast<char>(c - 'A' + 'a');
        else if (text.substr(i).starts_with("\xE2\x80\x99") && !word.letters.empty()) // a typographic apostrophe
            word.letters += '\'', i += 2;
        else if (static_cast<unsigned char>(c) == 0xC3 && i + 1 < text.size() &&
                 plainLetter(static_cast<unsigned char>(text[i + 1])))
            word.letters += plainLetter(static_cast<unsigned char>(text[++i]));
        else
            break;
        word.at.push_back(static_cast<std::uint32_t>(i));
    }
    word.end = static_cast<std::uint32_t>(i);
    return word;
}

} // namespace

std::vector<Spoken> spokenOf(std::string_view text)
{
    std::vector<Spoken> spoken;
    for (std::size_t i = 0; i < text.size();) {
        if (const Word word = wordAt(text, i); !word.letters.empty()) {
            speakWord(word, spoken);
            continue;
        }
        const std::size_t from = i;
        while (i < text.size() && text[i] >= '0' && text[i] <= '9')
            ++i;
        if (i > from) {
            for (const std::string_view name : readOut(text.substr(from, i - from)))
                speakWord({std::string(name), std::vector<std::uint32_t>(name.size(), static_cast<std::uint32_t>(from)),
                           static_cast<std::uint32_t>(i)},
                          spoken);
            continue;
        }
        const char c = text[i++];
        if (!asksForPause(c) || spoken.empty())
            continue;
        const bool isLong = c != ',' && c != ';' && c != ':';
        if (spoken.back().phone != pause)
            spoken.push_back({.begin = static_cast<std::uint32_t>(from), .end = static_cast<std::uint32_t>(i)});
        spoken.back().long_ = spoken.back().long_ || isLong;
    }
    while (!spoken.empty() && spoken.back().phone == pause)
        spoken.pop_back();
    return spoken;
}

int syllablesOf(std::string_view text)
{
    const std::vector<Spoken> spoken = spokenOf(text);
    return static_cast<int>(
        std::count_if(spoken.begin(), spoken.end(), [](const Spoken& each) { return each.nucleus; }));
}

} // namespace vh::voice
