#include "app/write/marked_text.h"

#include "common/lexicon/measures.h"
#include "common/script/limits.h"
#include "common/script/pace.h"

#include <algorithm>

namespace vh::write
{

namespace
{

using lexicon::LetterRange;

bool isBorder(std::string_view text, std::size_t at)
{
    return at >= text.size() || (static_cast<unsigned char>(text[at]) & 0xC0) != 0x80;
}

std::size_t borderAtOrBefore(std::string_view text, std::size_t at)
{
    while (!isBorder(text, at))
        --at;
    return at;
}

bool isSpace(char c)
{
    return c == ' ' || c == '\n' || c == '\t';
}

Stretch stretchOf(const LetterRange& range)
{
    return {static_cast<std::uint32_t>(range.begin), static_cast<std::uint32_t>(range.end)};
}

bool overlap(const Stretch& mark, std::size_t begin, std::size_t end)
{
    return mark.begin < end && begin < mark.end;
}

/// Runs of vowel letters of a word, as written.
std::vector<LetterRange> writtenVowels(std::string_view text, std::size_t begin, std::size_t end)
{
    std::vector<LetterRange> all;
    for (std::size_t at = begin; at < end;) {
        std::size_t next = at + 1;
        while (next < end && !isBorder(text, next))
            ++next;
        const std::string_view letter = text.substr(at, next - at);
        if (vowelGroups(letter) > 0 && (letter.front() < '0' || letter.front() > '9')) {
            if (!all.empty() && all.back().end == at)
                all.back().end = next;
            else
                all.push_back({at, next});
        }
        at = next;
    }
    return all;
}

struct Word {
    std::size_t begin = 0;
    std::size_t end = 0;
};

/// Between spaces, hyphens count as spaces.
Word wordAt(std::string_view text, std::size_t caret)
{
    const auto parts = [](char c) { return isSpace(c) || c == '-'; };
    Word word{caret, caret};
    while (word.begin > 0 && !parts(text[word.begin - 1]))
        --word.begin;
    while (word.end < text.size() && !parts(text[word.end]))
        ++word.end;
    return word;
}

/// As it is said, where there is a dictionary; the stressed one at the end of `all` is `stressed`.
std::vector<LetterRange> vowelsOf(std::string_view text, const Word& word, const lexicon::Lexicon* words,
                                  std::optional<LetterRange>& stressed)
{
    std::vector<LetterRange> all;
    if (words) {
        const std::string_view written = text.substr(word.begin, word.end - word.begin);
        const auto parts = lexicon::wordsOf(written);
        const auto how = parts.size() == 1 ? words->say(written.substr(parts[0].begin, parts[0].end - parts[0].begin))
                                           : std::nullopt;
        if (how) {
            const std::string_view bare = written.substr(parts[0].begin, parts[0].end - parts[0].begin);
            const auto letters = words->vowelLetters(bare, how->syllables);
            for (std::size_t i = 0; i < letters.size(); ++i) {
                const std::size_t from = word.begin + parts[0].begin;
                if (letters[i].end <= letters[i].begin)
                    continue;
                all.push_back({from + letters[i].begin, from + letters[i].end});
                if (!stressed && i < how->syllables.size() && how->syllables[i].stressed)
                    stressed = all.back();
            }
        }
    }
    if (all.empty())
        all = writtenVowels(text, word.begin, word.end);
    if (!stressed && !all.empty())
        stressed = all.front();
    return all;
}

std::optional<LetterRange> vowelAt(std::string_view text, std::size_t caret, const lexicon::Lexicon* words)
{
    const Word word = wordAt(text, caret);
    std::optional<LetterRange> stressed;
    const auto all = vowelsOf(text, word, words, stressed);
    if (caret > word.begin && caret < word.end)
        for (const LetterRange& range : all)
            if (range.begin <= caret && caret <= range.end)
                return range;
    return stressed;
}

void add(std::vector<Stretch>& marks, const Stretch& mark)
{
    marks.insert(std::upper_bound(marks.begin(), marks.end(), mark,
                                  [](const Stretch& a, const Stretch& b) { return a.begin < b.begin; }),
                 mark);
}

} // namespace

TextChange changeBetween(std::string_view before, std::string_view after, std::size_t caretAfter)
{
    const std::size_t shorter = std::min(before.size(), after.size());
    const std::size_t most = std::min(shorter, after.size() - std::min(caretAfter, after.size()));
    std::size_t same = 0; // at the end
    while (same < most && before[before.size() - 1 - same] == after[after.size() - 1 - same])
        ++same;
    while (same > 0 && (!isBorder(before, before.size() - same) || !isBorder(after, after.size() - same)))
        --same;
    std::size_t at = 0;
    while (at < shorter - same && before[at] == after[at])
        ++at;
    at = std::min(borderAtOrBefore(before, at), borderAtOrBefore(after, at));
    return {at, before.size() - same - at, after.size() - same - at};
}

std::vector<Stretch> followed(const std::vector<Stretch>& marks, const TextChange& change, std::string_view after)
{
    std::vector<Stretch> moved;
    const std::size_t end = change.at + change.removed;
    for (const Stretch& mark : marks) {
        std::size_t from = mark.begin;
        std::size_t to = mark.end;
        if (mark.end <= change.at) { // before it
        } else if (mark.begin >= end) {
            from = from - change.removed + change.added;
            to = to - change.removed + change.added;
        } else { // what is typed inside belongs to it; of what is only cut at one side, the rest stays
            const bool left = mark.begin < change.at;
            const bool right = mark.end > end;
            if (!left)
                from = change.at + (right ? change.added : 0);
            to = right ? to - change.removed + change.added : change.at;
        }
        if (from >= to)
            continue;
        const Stretch now{static_cast<std::uint32_t>(from), static_cast<std::uint32_t>(to)};
        if (!stretchesFault(after, {now}))
            moved.push_back(now);
    }
    return moved;
}

std::vector<Stretch> toggled(const MarkedText& text, std::size_t begin, std::size_t end, const lexicon::Lexicon* words)
{
    std::vector<Stretch> marks = text.stretches;
    const std::string_view all = text.text;
    end = std::min(end, all.size());
    while (begin < end && isSpace(all[begin]))
        ++begin;
    while (end > begin && isSpace(all[end - 1]))
        --end;
    const bool chosen = begin < end;
    if (!chosen) {
        const auto vowel = vowelAt(all, std::min(begin, all.size()), words);
        if (!vowel)
            return marks;
        begin = vowel->begin;
        end = vowel->end;
    }
    if (std::erase_if(marks, [&](const Stretch& mark) { return overlap(mark, begin, end); }) > 0)
        return marks;
    if (all.substr(begin, end - begin).find_first_of(" \n\t") == std::string_view::npos) {
        add(marks, stretchOf({begin, end}));
    } else if (words) {
        for (const LetterRange& range : lexicon::stretchable(all, *words))
            if (range.begin >= begin && range.end <= end)
                add(marks, stretchOf(range));
    }
    return stretchesFault(all, marks) ? text.stretches : marks;
}

MarkedText tidied(const MarkedText& text, LineBreaks breaks)
{
    std::size_t begin = 0;
    std::size_t end = text.text.size();
    while (begin < end && isSpace(text.text[begin]))
        ++begin;
    while (end > begin && isSpace(text.text[end - 1]))
        --end;
    MarkedText tidy{text.text.substr(begin, end - begin), {}};
    std::replace(tidy.text.begin(), tidy.text.end(), '\t', ' ');
    const auto clean = cleanLine(tidy.text, text.text.size(), breaks);
    if (clean && *clean != tidy.text)
        return {*clean, {}};
    for (const Stretch& mark : text.stretches)
        if (mark.begin >= begin && mark.end <= end)
            tidy.stretches.push_back(
                {mark.begin - static_cast<std::uint32_t>(begin), mark.end - static_cast<std::uint32_t>(begin)});
    return tidy;
}

} // namespace vh::write
