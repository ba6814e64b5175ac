#include "common/lexicon/pronunciation.h"

#include <algorithm>

namespace vh::lexicon
{

namespace
{

using enum Phone;

bool isIn(Phone phone, std::initializer_list<Phone> all)
{
    return std::find(all.begin(), all.end(), phone) != all.end();
}

/// Two consonants that begin English words.
bool beginsWord(Phone one, Phone other)
{
    if (one == s)
        return isIn(other, {p, t, k, m, n, l, w, f});
    if (other == l)
        return isIn(one, {p, b, k, g, f});
    if (other == r)
        return isIn(one, {p, b, t, d, k, g, f, th, sh});
    if (other == w)
        return isIn(one, {t, d, k, g, th, hh});
    return other == y && isIn(one, {p, b, k, g, f, v, m, hh});
}

/// How many of the consonants before a vowel go with it.
std::size_t onset(const std::vector<Phone>& phones, std::size_t from, std::size_t vowel)
{
    const std::size_t all = vowel - from;
    if (all == 0 || phones[vowel - 1] == ng)
        return 0;
    if (all == 1 || !beginsWord(phones[vowel - 2], phones[vowel - 1]))
        return 1;
    const bool three = all >= 3 && phones[vowel - 3] == s && isIn(phones[vowel - 2], {p, t, k}) &&
                       isIn(phones[vowel - 1], {l, r, w, y});
    return three ? 3 : 2;
}

} // namespace

std::vector<Phone> phonesOf(const Pronunciation& said)
{
    std::vector<Phone> phones;
    for (const Syllable& syllable : said)
        phones.insert(phones.end(), syllable.phones.begin(), syllable.phones.end());
    return phones;
}

Pronunciation inSyllables(const std::vector<Phone>& phones)
{
    std::vector<std::size_t> vowels;
    for (std::size_t at = 0; at < phones.size(); ++at)
        if (isVowel(phones[at]))
            vowels.push_back(at);
    if (vowels.empty())
        return phones.empty() ? Pronunciation{} : Pronunciation{{phones, false}};
    Pronunciation said;
    std::size_t begin = 0;
    for (std::size_t i = 0; i < vowels.size(); ++i) {
        const bool last = i + 1 == vowels.size();
        const std::size_t end = last ? phones.size() : vowels[i + 1] - onset(phones, vowels[i] + 1, vowels[i + 1]);
        said.push_back(
            {{phones.begin() + static_cast<std::ptrdiff_t>(begin), phones.begin() + static_cast<std::ptrdiff_t>(end)},
             false});
        begin = end;
    }
    return said;
}

} // namespace vh::lexicon
