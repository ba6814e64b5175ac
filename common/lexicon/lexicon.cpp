#include "common/lexicon/lexicon.h"

#include "common/lexicon/letter_training.h"

#include <algorithm>

namespace vh::lexicon
{

namespace
{

constexpr std::size_t kShortestPart = 3; // of a compound

void putPart(std::string& bytes, const std::string& part)
{
    for (int shift = 24; shift >= 0; shift -= 8)
        bytes.push_back(static_cast<char>(part.size() >> shift));
    bytes += part;
}

std::optional<std::span<const std::uint8_t>> takePart(std::span<const std::uint8_t>& bytes)
{
    if (bytes.size() < 4)
        return std::nullopt;
    std::size_t size = 0;
    for (std::size_t k = 0; k < 4; ++k)
        size = size << 8 | bytes[k];
    if (bytes.size() < 4 + size)
        return std::nullopt;
    const auto part = bytes.subspan(4, size);
    bytes = bytes.subspan(4 + size);
    return part;
}

bool isPlain(std::string_view word)
{
    return std::all_of(word.begin(), word.end(), [](char c) { return (c >= 'a' && c <= 'z') || c == '\''; });
}

bool isOneOf(Phone phone, std::initializer_list<Phone> all)
{
    return std::find(all.begin(), all.end(), phone) != all.end();
}

/// What -s and -'s sound like behind this.
Pronunciation withS(Pronunciation said)
{
    using enum Phone;
    const Phone last = said.back().phones.back();
    if (isOneOf(last, {s, z, sh, ch, jh, zh}))
        said.push_back({{ax, z}, false});
    else
        said.back().phones.push_back(isOneOf(last, {p, t, k, f, th}) ? s : z);
    return said;
}

Pronunciation withD(Pronunciation said)
{
    using enum Phone;
    const Phone last = said.back().phones.back();
    if (isOneOf(last, {t, d}))
        said.push_back({{ax, d}, false});
    else
        said.back().phones.push_back(isOneOf(last, {p, k, f, s, sh, ch, th}) ? t : d);
    return said;
}

Pronunciation withSyllable(Pronunciation said, std::vector<Phone> phones)
{
    said.push_back({std::move(phones), false});
    return said;
}

/// Where English words of this ending are stressed, counted from the last syllable; common practice of spelling books.
std::size_t stressFromEnd(std::string_view word, std::size_t syllables)
{
    if (syllables <= 1)
        return 0;
    for (const std::string_view ending : {"ee", "eer", "ette", "esque", "oo", "ique"})
        if (word.ends_with(ending))
            return 0;
    for (const std::string_view ending : {"tion", "sion", "cian", "ic", "ics", "tional", "cious", "tious", "gious"})
        if (word.ends_with(ending))
            return ending == "tional" ? std::min<std::size_t>(2, syllables - 1) : 1;
    return std::min<std::size_t>(syllables == 2 ? 1 : 2, syllables - 1);
}

std::string lower(std::string_view word)
{
    std::string plain(word);
    for (char& c : plain)
        if (c >= 'A' && c <= 'Z')
            c = static_cast<char>(c - 'A' + 'a');
    return plain;
}

} // namespace

std::string Lexicon::pack(const std::vector<Dictionary::Entry>& entries)
{
    std::vector<Spoken> words;
    for (const Dictionary::Entry& entry : entries)
        if (isPlain(entry.word))
            words.push_back({entry.word, phonesOf(entry.said)});
    const Alignment alignment = Alignment::learnt(words);
    std::string bytes;
    putPart(bytes, Dictionary::pack(entries));
    putPart(bytes, alignment.bytes());
    putPart(bytes, learnt(words, alignment).bytes());
    return bytes;
}

Result<Lexicon> Lexicon::fromBytes(std::span<const std::uint8_t> bytes)
{
    const auto words = takePart(bytes);
    const auto letters = takePart(bytes);
    const auto tree = takePart(bytes);
    if (!words || !letters || !tree || !bytes.empty())
        return fail("damaged", "The word list is cut short.");
    auto dictionary = Dictionary::fromBytes(*words);
    auto alignment = Alignment::fromBytes(*letters);
    auto grown = LetterTree::fromBytes(*tree);
    for (const Error* error : {dictionary ? nullptr : &dictionary.error(), alignment ? nullptr : &alignment.error(),
                               grown ? nullptr : &grown.error()})
        if (error)
            return tl::unexpected<Error>(*error);
    Lexicon lexicon;
    lexicon.m_dictionary = *dictionary;
    lexicon.m_alignment = std::move(*alignment);
    lexicon.m_tree = std::move(*grown);
    return lexicon;
}

std::optional<Pronunciation> Lexicon::first(std::string_view word) const
{
    auto all = m_dictionary.of(word);
    return all.empty() ? std::nullopt : std::optional(std::move(all.front()));
}

/// British spellings; the dictionary is American. Common practice of spelling books.
std::optional<Pronunciation> Lexicon::asInAmerica(std::string_view word) const
{
    struct Pair {
        std::string_view here;
        std::string_view there;
    };
    static constexpr std::array<Pair, 8> kPairs{Pair{"our", "or"},  Pair{"ise", "ize"}, Pair{"isi", "izi"},
                                                Pair{"yse", "yze"}, Pair{"tre", "ter"}, Pair{"ll", "l"},
                                                Pair{"ogue", "og"}, Pair{"rnt", "rned"}};
    for (const Pair& pair : kPairs)
        if (const auto at = word.find(pair.here, 1); at != std::string_view::npos) {
            std::string other(word);
            other.replace(at, pair.here.size(), pair.there);
            if (auto said = first(other))
                return said;
        }
    return std::nullopt;
}

std::optional<Pronunciation> Lexicon::withEnding(std::string_view word) const
{
    struct Ending {
        std::string_view letters;
        Pronunciation (*say)(Pronunciation);
    };
    static constexpr std::array<Ending, 9> kEndings{
        Ending{"'s", &withS},
        Ending{"s'", +[](Pronunciation said) { return withS(std::move(said)); }},
        Ending{"es", &withS},
        Ending{"s", &withS},
        Ending{"ed", &withD},
        Ending{"ing",
               +[](Pronunciation said) {
                   return withSyllable(std::move(said), {Phone::ih, Phone::ng});
               }},
        Ending{"er", +[](Pronunciation said) { return withSyllable(std::move(said), {Phone::er}); }},
        Ending{"est",
               +[](Pronunciation said) {
                   return withSyllable(std::move(said), {Phone::ax, Phone::s, Phone::t});
               }},
        Ending{"ly", +[](Pronunciation said) {
                   return withSyllable(std::move(said), {Phone::l, Phone::iy});
               }}};
    for (const Ending& ending : kEndings) {
        if (!word.ends_with(ending.letters) || word.size() < ending.letters.size() + 2)
            continue;
        const std::string stem(word.substr(0, word.size() - ending.letters.size()));
        std::vector<std::string> stems{stem, stem + "e"};
        if (stem[stem.size() - 1] == stem[stem.size() - 2])
            stems.push_back(stem.substr(0, stem.size() - 1)); // hopped
        if (stem.back() == 'i')
            stems.push_back(stem.substr(0, stem.size() - 1) + "y"); // hurried
        for (const std::string& each : stems)
            if (auto said = first(each))
                return ending.say(std::move(*said));
    }
    return std::nullopt;
}

std::optional<Pronunciation> Lexicon::compound(std::string_view word) const
{
    if (const auto cut = word.find('\''); cut != std::string_view::npos) { // o'clock
        auto one = first(word.substr(0, cut));
        const auto other = first(word.substr(cut + 1));
        if (one && other)
            one->insert(one->end(), other->begin(), other->end());
        return other ? one : std::nullopt;
    }
    // From the middle outwards: the dictionary has many short names.
    for (std::size_t step = 0; step < word.size(); ++step) {
        const std::size_t half = word.size() / 2;
        const std::size_t cut = step % 2 == 0 ? half + step / 2 : half - std::min(half, (step + 1) / 2);
        if (cut < kShortestPart || cut + kShortestPart > word.size())
            continue;
        auto one = first(word.substr(0, cut));
        auto other = one ? first(word.substr(cut)) : std::nullopt;
        if (!other)
            continue;
        for (Syllable& syllable : *other)
            syllable.stressed = false; // the first part carries it: TEApot
        one->insert(one->end(), other->begin(), other->end());
        return one;
    }
    return std::nullopt;
}

Pronunciation Lexicon::byLetters(std::string_view word) const
{
    auto phones = m_tree.phonesFor(word);
    if (phones.empty())
        phones.push_back(Phone::ax);
    Pronunciation said = inSyllables(phones);
    said[said.size() - 1 - stressFromEnd(word, said.size())].stressed = true;
    return said;
}

std::optional<Said> Lexicon::say(std::string_view text) const
{
    const std::string word = lower(text);
    if (auto said = first(word)) // also what is no plain word
        return Said{std::move(*said), Source::dictionary};
    if (!isPlain(word) || std::all_of(word.begin(), word.end(), [](char c) { return c == '\''; }))
        return std::nullopt;
    if (auto said = asInAmerica(word))
        return Said{std::move(*said), Source::builtFromParts};
    if (auto said = withEnding(word))
        return Said{std::move(*said), Source::builtFromParts};
    if (auto said = compound(word))
        return Said{std::move(*said), Source::builtFromParts};
    return Said{byLetters(word), Source::letters};
}

std::vector<LetterRange> Lexicon::vowelLetters(std::string_view text, const Pronunciation& said) const
{
    const std::string word = lower(text);
    const auto phones = phonesOf(said);
    const auto labels = isPlain(word) ? m_alignment.labels(word, phones) : std::vector<std::uint16_t>{};
    const auto isVowelLetter = [&](std::size_t at) {
        return std::string_view("aeiouy").find(word[at]) != std::string_view::npos;
    };
    const auto isSilent = [&](std::size_t at) { return labels[at] == LetterTree::kSilent; };
    std::vector<LetterRange> ranges;
    for (std::size_t at = 0; at < labels.size(); ++at) {
        const auto given = phonesOfLabel(labels[at]);
        if (std::none_of(given.begin(), given.end(), isVowel))
            continue;
        LetterRange range{at, at + 1};
        while (range.end < labels.size() && isVowelLetter(range.end) && isSilent(range.end) &&
               (range.end + 1 < labels.size() || range.end == at + 1))
            ++range.end;
        const auto belongsBefore = [&](std::size_t before) { // the u of "queen" goes with its q
            return isVowelLetter(before) && isSilent(before) &&
                   !(word[before] == 'u' && before > 0 && word[before - 1] == 'q');
        };
        while (range.begin > (ranges.empty() ? 0 : ranges.back().end) && belongsBefore(range.begin - 1))
            --range.begin;
        ranges.push_back(range);
    }
    const auto vowels = static_cast<std::size_t>(std::count_if(phones.begin(), phones.end(), isVowel));
    return ranges.size() == vowels && vowels == said.size() ? ranges : std::vector<LetterRange>{};
}

} // namespace vh::lexicon
