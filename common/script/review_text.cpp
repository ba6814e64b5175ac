// What a step says: breath, reading, screen, vowels, back-of-tongue sounds, words, sentences said before.
#include "common/base/text.h"
#include "common/lexicon/measures.h"
#include "common/script/review_parts.h"
#include "common/script/shapes.h"

#include <fmt/format.h>

#include <algorithm>

namespace vh::reviewing
{

namespace
{

using lexicon::TextWord;

constexpr int kShortText = 10; // words: too few for a formula made for pages
constexpr int kFewBackSounds = 3;
constexpr std::size_t kLongWord = 5; // syllables

/// Parts of a text that are said on one breath: to the end of a sentence, a semicolon, colon or dash, or a line.
std::vector<lexicon::Sentence> breaths(std::string_view text)
{
    std::vector<lexicon::Sentence> parts;
    std::size_t begin = 0;
    const auto cut = [&](std::size_t end) {
        if (end > begin)
            parts.push_back({begin, end});
        begin = end;
    };
    for (std::size_t i = 0; i < text.size(); ++i)
        if (std::string_view(".!?;:\n").find(text[i]) != std::string_view::npos ||
            text.substr(i).starts_with("\u2013") || text.substr(i).starts_with("\u2014") ||
            text.substr(i).starts_with("\u2026"))
            cut(i + 1);
    cut(text.size());
    return parts;
}

int syllables(std::string_view text, const lexicon::Lexicon& words)
{
    int count = 0;
    for (const TextWord& word : lexicon::wordsOf(text))
        count += lexicon::syllablesOf(word, words);
    return count;
}

void breath(const At& at)
{
    const std::string& text = at.step().text;
    for (const auto& part : breaths(text)) {
        const int count = syllables(std::string_view(text).substr(part.begin, part.end - part.begin), *at.rules.words);
        if (count <= at.rules.mostSyllablesOnABreath)
            continue;
        Finding& finding =
            at.add(FindingKind::tooLongForOneBreath,
                   fmt::format("{} syllables before there is a place to breathe; {} are about what one breath "
                               "carries at this pace. A full stop, or a new line, makes two.",
                               count, at.rules.mostSyllablesOnABreath));
        finding.begin = static_cast<std::uint32_t>(part.begin);
        finding.end = static_cast<std::uint32_t>(part.end);
    }
}

void reading(const At& at)
{
    const auto measures = lexicon::measure(at.step().text, *at.rules.words);
    if (measures.words > kShortText && measures.readingEase < at.rules.leastReadingEase)
        at.add(FindingKind::hardToRead,
               fmt::format(
                   "Reading ease {:.0f}, where {:.0f} is plain: shorter sentences and shorter words read better aloud.",
                   measures.readingEase, at.rules.leastReadingEase));
}

void sayableWords(const At& at)
{
    const std::string& text = at.step().text;
    for (const TextWord& word : lexicon::wordsOf(text)) {
        const auto how = at.rules.words->say(word.spoken.front());
        if (!how || word.spoken.size() > 1)
            continue;
        // Names, and the first word of a sentence; sounds to be made ("Ahh"), which hold the stretched vowel.
        const bool name = text[word.begin] >= 'A' && text[word.begin] <= 'Z';
        const bool stretched =
            std::any_of(at.step().stretches.begin(), at.step().stretches.end(),
                        [&](const Stretch& stretch) { return word.begin <= stretch.begin && stretch.end <= word.end; });
        const bool manySyllables = how->syllables.size() >= kLongWord;
        if (!manySyllables && (how->source != lexicon::Source::letters || name || stretched))
            continue;
        const std::string written = text.substr(word.begin, word.end - word.begin);
        std::string why =
            manySyllables
                ? fmt::format("\"{}\" has {} syllables: say it for them first, or take a shorter word.", written,
                              how->syllables.size())
                : fmt::format("\"{}\" is in no dictionary here: not everybody may know it, or know how it is said.",
                              written);
        const bool saidBefore = std::any_of(at.findings.begin(), at.findings.end(),
                                            [&](const Finding& finding) { return finding.why == why; });
        if (saidBefore)
            continue; // once for each word
        Finding& finding = at.add(FindingKind::wordToExplain, std::move(why));
        finding.begin = static_cast<std::uint32_t>(word.begin);
        finding.end = static_cast<std::uint32_t>(word.end);
    }
}

/// Lines of large print that a text takes, broken between words.
int largePrintLines(std::string_view text, int mostLetters)
{
    int lines = 1;
    int letters = 0;
    std::size_t at = 0;
    const auto take = [&](std::string_view word) {
        const auto length = static_cast<int>(codePointCount(word));
        if (letters > 0 && letters + 1 + length > mostLetters) {
            ++lines;
            letters = 0;
        }
        letters += length + (letters > 0 ? 1 : 0);
    };
    while (at < text.size()) {
        const std::size_t end = std::min(text.find_first_of(" \n", at), text.size());
        take(text.substr(at, end - at));
        if (end < text.size() && text[end] == '\n') {
            ++lines;
            letters = 0;
        }
        at = end + 1;
    }
    return lines;
}

void screen(const At& at)
{
    const int lines = largePrintLines(at.step().text, at.rules.mostLetters);
    const int room = isSpoken(at.step()) ? at.rules.mostLinesSpoken : at.rules.mostLinesShown;
    if (lines > room)
        at.add(
            FindingKind::doesNotFitScreen,
            fmt::format("In large print this takes {} lines, and a home's screen has room for {}: make it two steps.",
                        lines, room));
}

void vowels(const At& at)
{
    const SectionKind kind = at.section().kind;
    const bool wanted =
        kind == SectionKind::phrases || kind == SectionKind::sustainedVowel || kind == SectionKind::pitchGlide;
    if (!wanted || !isSpoken(at.step()) || !at.step().stretches.empty())
        return;
    Finding& finding =
        at.add(FindingKind::noVowelMarked, "No vowel is marked: people see the text without a place to let the "
                                           "voice ring.");
    if (!at.rules.words)
        return;
    Mend mend;
    for (const auto& range : lexicon::stretchable(at.step().text, *at.rules.words))
        mend.stretches.push_back({static_cast<std::uint32_t>(range.begin), static_cast<std::uint32_t>(range.end)});
    if (!mend.stretches.empty())
        finding.mend = mend;
}

void backOfTongue(const At& at)
{
    if (at.section().kind != SectionKind::backOfTongue || !isSpoken(at.step()))
        return;
    const auto count = lexicon::backSounds(at.step().text, *at.rules.words).size();
    if (count < kFewBackSounds)
        at.add(FindingKind::noBackOfTongueSounds,
               fmt::format("A back-of-tongue line with {} k, g or ng in what is said; {} and more make it one.", count,
                           kFewBackSounds));
}

} // namespace

void reviewText(const At& at)
{
    const Step& step = at.step();
    if (step.picture && step.picture->description.empty())
        at.add(FindingKind::pictureNotDescribed, "Those who do not see the picture have nothing of it.");
    if (at.section().kind == SectionKind::pause) {
        if (step.text.empty() && !isSpoken(step))
            return;
        Finding& finding = at.add(FindingKind::pauseAsks,
                                  "A water pause has nothing to read or answer: swallowing wants all of the attention "
                                  "(attention and swallowing safety: Troche and colleagues).");
        finding.mend = Mend{Mend::Kind::emptyPause, {}, 0, {}};
        return;
    }
    if (isToWrite(step)) {
        at.add(FindingKind::leftToWrite, "This is still to be written.");
        return;
    }
    screen(at);
    vowels(at);
    if (!at.rules.words)
        return;
    if (isSpoken(step) && at.section().kind != SectionKind::counting) // its commas are places to breathe
        breath(at);
    // Drills are sounds, not reading.
    const bool drill = at.section().kind == SectionKind::backOfTongue || at.section().kind == SectionKind::counting;
    if (isSpoken(step) && !drill) {
        reading(at);
        sayableWords(at);
    }
    backOfTongue(at);
}

} // namespace vh::reviewing
