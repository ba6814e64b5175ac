#include "common/lexicon/text_words.h"

#include "common/lexicon/numbers.h"

#include <algorithm>
#include <cstdint>

namespace vh::lexicon
{

namespace
{

struct Point {
    char32_t code = 0;
    std::size_t size = 1;
};

/// Of well-formed UTF-8; a stray byte is a point of its own.
Point pointAt(std::string_view text, std::size_t at)
{
    const auto byte = [&](std::size_t i) { return static_cast<std::uint8_t>(text[at + i]); };
    const std::uint8_t lead = byte(0);
    const std::size_t size = lead < 0x80 ? 1 : lead >> 5 == 6 ? 2 : lead >> 4 == 14 ? 3 : lead >> 3 == 30 ? 4 : 1;
    if (size == 1 || at + size > text.size())
        return {lead, 1};
    char32_t code = lead & (0xFFU >> (size + 1));
    for (std::size_t i = 1; i < size; ++i)
        code = code << 6 | (byte(i) & 0x3FU);
    return {code, size};
}

/// Plain letters for Latin-1's and Latin Extended-A's; empty for what is no such letter.
std::string plainLetters(char32_t code)
{
    if (code >= U'A' && code <= U'Z')
        return {static_cast<char>(code - U'A' + 'a')};
    if (code >= U'a' && code <= U'z')
        return {static_cast<char>(code)};
    // U+00C0..U+00FF and U+0100..U+017F by their base letters (Unicode character names).
    static constexpr std::string_view kLatin1 = "aaaaaa_ceeeeiiiidnooooo*ouuuuyts"
                                                "aaaaaa_ceeeeiiiidnooooo*ouuuuyty";
    static constexpr std::string_view kExtendedA =
        "aaaaaaccccccccddddeeeeeeeeeegggggggghhhhiiiiiiiiii__jjkkk"
        "llllllllllnnnnnnnnnoooooo__rrrrrrssssssssttttttuuuuuuuuuuuuwwyyyzzzzzzs";
    if (code == U'Æ' || code == U'æ')
        return "ae";
    if (code == U'Œ' || code == U'œ')
        return "oe";
    if (code == U'ß')
        return "ss";
    char letter = '_';
    if (code >= 0xC0 && code <= 0xFF)
        letter = kLatin1[code - 0xC0];
    else if (code >= 0x100 && code < 0x100 + kExtendedA.size())
        letter = kExtendedA[code - 0x100];
    return letter >= 'a' && letter <= 'z' ? std::string(1, letter) : std::string();
}

bool isApostrophe(char32_t code)
{
    return code == U'\'' || code == U'\u2019';
}

bool isCombining(char32_t code)
{
    return code >= 0x300 && code <= 0x36F;
}

bool isDigit(char32_t code)
{
    return code >= U'0' && code <= U'9';
}

TextWord letters(std::string_view text, std::size_t begin)
{
    TextWord word{begin, begin, {std::string()}};
    for (std::size_t at = begin; at < text.size();) {
        const Point point = pointAt(text, at);
        const std::string plain = plainLetters(point.code);
        const std::size_t next = at + point.size;
        const bool inside = next < text.size() && !plainLetters(pointAt(text, next).code).empty();
        if (plain.empty() && !isCombining(point.code) && !(isApostrophe(point.code) && inside))
            break;
        word.spoken.front() += isApostrophe(point.code) ? "'" : plain;
        at = next;
        word.end = at;
    }
    return word;
}

TextWord digits(std::string_view text, std::size_t begin)
{
    TextWord word{begin, begin, {}};
    std::string run;
    const auto isDigitAt = [&](std::size_t at) {
        return at < text.size() && isDigit(static_cast<unsigned char>(text[at]));
    };
    std::size_t at = begin;
    for (; isDigitAt(at) || (at < text.size() && text[at] == ',' && isDigitAt(at + 1) && isDigitAt(at + 2) &&
                             isDigitAt(at + 3) && !isDigitAt(at + 4));
         ++at)
        if (text[at] != ',')
            run += text[at];
    word.end = at;
    word.spoken = readOut(run);
    return word;
}

} // namespace

std::vector<TextWord> wordsOf(std::string_view text)
{
    std::vector<TextWord> words;
    for (std::size_t at = 0; at < text.size();) {
        const Point point = pointAt(text, at);
        if (isDigit(point.code))
            words.push_back(digits(text, at));
        else if (!plainLetters(point.code).empty())
            words.push_back(letters(text, at));
        else {
            at += point.size;
            continue;
        }
        at = words.back().end;
    }
    return words;
}

std::vector<Sentence> sentencesOf(std::string_view text)
{
    std::vector<Sentence> sentences;
    const std::vector<TextWord> words = wordsOf(text);
    std::size_t begin = 0;
    const auto endAt = [&](std::size_t end) {
        const bool says = std::any_of(words.begin(), words.end(),
                                      [&](const TextWord& word) { return word.begin >= begin && word.end <= end; });
        if (says)
            sentences.push_back({begin, end});
        if (says)
            begin = end;
    };
    const auto wordBefore = [&](std::size_t at) {
        return std::find_if(words.begin(), words.end(), [&](const TextWord& word) { return word.end == at; });
    };
    for (std::size_t at = 0; at < text.size();) {
        const Point point = pointAt(text, at);
        const std::size_t next = at + point.size;
        const auto before = wordBefore(at);
        const bool initial = before != words.end() && before->end - before->begin == 1 && text[before->begin] != 'I' &&
                             !isDigit(static_cast<unsigned char>(text[before->begin]));
        const bool decimal = at > 0 && isDigit(static_cast<unsigned char>(text[at - 1])) && next < text.size() &&
                             isDigit(static_cast<unsigned char>(text[next]));
        const bool stop = point.code == U'.' && !initial && !decimal;
        if (stop || point.code == U'!' || point.code == U'?' || point.code == U'\u2026' ||
            (point.code == U'\n' && next < text.size() && text[next] == '\n'))
            endAt(next);
        at = next;
    }
    endAt(text.size());
    return sentences;
}

} // namespace vh::lexicon
