#pragma once
// How a word is said: syllables of phones. Phones are those of American English as the CMU Pronouncing Dictionary
// writes them (ARPAbet), with the reduced vowel of "about" (ax) apart, as the dictionary's copy for Festival has it.
// Plain values; any thread.
#include <array>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

namespace vh::lexicon
{

enum class Phone : std::uint8_t {
    aa,
    ae,
    ah,
    ao,
    aw,
    ax,
    ay,
    eh,
    er,
    ey,
    ih,
    iy,
    ow,
    oy,
    uh,
    uw, // vowels
    b,
    ch,
    d,
    dh,
    f,
    g,
    hh,
    jh,
    k,
    l,
    m,
    n,
    ng,
    p,
    r,
    s,
    sh,
    t,
    th,
    v,
    w,
    y,
    z,
    zh
};
inline constexpr std::size_t kPhones = 40;
inline constexpr std::array<std::string_view, kPhones> kPhoneNames{
    "aa", "ae", "ah", "ao", "aw", "ax", "ay", "eh", "er", "ey", "ih", "iy", "ow", "oy",
    "uh", "uw", "b",  "ch", "d",  "dh", "f",  "g",  "hh", "jh", "k",  "l",  "m",  "n",
    "ng", "p",  "r",  "s",  "sh", "t",  "th", "v",  "w",  "y",  "z",  "zh"};

[[nodiscard]] constexpr bool isVowel(Phone phone)
{
    return phone <= Phone::uw;
}
/// Made with the back of the tongue: k, g and ng.
[[nodiscard]] constexpr bool isBackOfTongue(Phone phone)
{
    return phone == Phone::k || phone == Phone::g || phone == Phone::ng;
}
[[nodiscard]] constexpr std::optional<Phone> phoneOf(std::string_view name)
{
    for (std::size_t i = 0; i < kPhones; ++i)
        if (kPhoneNames[i] == name)
            return static_cast<Phone>(i);
    return std::nullopt;
}

struct Syllable {
    std::vector<Phone> phones;
    bool stressed = false;
    friend bool operator==(const Syllable&, const Syllable&) = default;
};
/// Never empty for a word that can be said.
using Pronunciation = std::vector<Syllable>;

/// All phones on end.
[[nodiscard]] std::vector<Phone> phonesOf(const Pronunciation& said);
/// Phones cut into syllables: each vowel is one, and takes as many consonants before it as an English word may begin
/// with (the maximal onset principle, Kahn 1976). Phones without a vowel ("mm", "shh") are one syllable.
[[nodiscard]] Pronunciation inSyllables(const std::vector<Phone>& phones);

} // namespace vh::lexicon
