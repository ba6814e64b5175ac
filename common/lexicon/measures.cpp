#include "common/lexicon/measures.h"

#include <algorithm>

namespace vh::lexicon
{

namespace
{

/// Little words: nobody stretches them.
constexpr std::array<std::string_view, 62> kLittle{
    "a",    "an",   "and",  "are",  "as",    "at",   "be",    "been", "but",   "by",  "can", "do",  "for",
    "from", "had",  "has",  "have", "he",    "her",  "his",   "i",    "if",    "in",  "is",  "it",  "its",
    "me",   "my",   "no",   "nor",  "not",   "of",   "off",   "on",   "or",    "our", "out", "she", "so",
    "some", "than", "that", "the",  "their", "them", "there", "they", "this",  "to",  "up",  "us",  "was",
    "we",   "were", "what", "when", "which", "who",  "will",  "with", "would", "you"};

bool canBeHeld(Phone phone)
{
    return isVowel(phone) && phone != Phone::ih && phone != Phone::eh && phone != Phone::uh && phone != Phone::ax;
}

Said said(const std::string& word, const Lexicon& lexicon)
{
    return lexicon.say(word).value_or(Said{{{{Phone::ax}, true}}, Source::letters});
}

} // namespace

int syllablesOf(const TextWord& word, const Lexicon& lexicon)
{
    int syllables = 0;
    for (const std::string& spoken : word.spoken)
        syllables += static_cast<int>(said(spoken, lexicon).syllables.size());
    return syllables;
}

TextMeasures measure(std::string_view text, const Lexicon& lexicon)
{
    TextMeasures found;
    for (const TextWord& word : wordsOf(text))
        for (const std::string& spoken : word.spoken) {
            const Said how = said(spoken, lexicon);
            ++found.words;
            found.syllables += static_cast<int>(how.syllables.size());
            found.unsure += how.source == Source::letters;
            const auto phones = phonesOf(how.syllables);
            found.backOfTongue += static_cast<int>(std::count_if(phones.begin(), phones.end(), isBackOfTongue));
        }
    found.sentences = static_cast<int>(sentencesOf(text).size());
    if (found.words == 0 || found.sentences == 0)
        return found;
    const double length = static_cast<double>(found.words) / found.sentences;
    const double weight = static_cast<double>(found.syllables) / found.words;
    found.readingEase = 206.835 - 1.015 * length - 84.6 * weight;
    found.gradeLevel = 0.39 * length + 11.8 * weight - 15.59;
    return found;
}

std::vector<BackSound> backSounds(std::string_view text, const Lexicon& lexicon)
{
    std::vector<BackSound> sounds;
    const auto words = wordsOf(text);
    for (std::size_t i = 0; i < words.size(); ++i)
        for (const std::string& spoken : words[i].spoken) {
            const auto phones = phonesOf(said(spoken, lexicon).syllables);
            for (std::size_t at = 0; at < phones.size(); ++at)
                if (isBackOfTongue(phones[at]))
                    sounds.push_back({i, phones[at],
                                      at == 0                   ? Where::begins
                                      : at + 1 == phones.size() ? Where::ends
                                                                : Where::inside});
        }
    return sounds;
}

std::vector<LetterRange> stretchable(std::string_view text, const Lexicon& lexicon)
{
    std::vector<LetterRange> ranges;
    for (const TextWord& word : wordsOf(text)) {
        const std::string& spoken = word.spoken.front();
        // Letters that were changed for saying (accents, other apostrophes) are no longer where they were.
        if (spoken.size() != word.end - word.begin ||
            std::find(kLittle.begin(), kLittle.end(), spoken) != kLittle.end())
            continue;
        const Said how = said(spoken, lexicon);
        const auto letters = lexicon.vowelLetters(spoken, how.syllables);
        for (std::size_t i = 0; i < letters.size(); ++i) {
            const Syllable& syllable = how.syllables[i];
            const auto vowel = std::find_if(syllable.phones.begin(), syllable.phones.end(), isVowel);
            if (!syllable.stressed || !canBeHeld(*vowel))
                continue;
            ranges.push_back({word.begin + letters[i].begin, word.begin + letters[i].end});
            break;
        }
    }
    return ranges;
}

double speakingSeconds(std::string_view text, const Lexicon& lexicon, double syllablesPerSecond, double pauseSeconds)
{
    int syllables = 0;
    const auto words = wordsOf(text);
    for (const TextWord& word : words)
        syllables += syllablesOf(word, lexicon);
    int pauses = 0;
    for (std::size_t i = 0; i + 1 < words.size(); ++i) {
        const auto between = text.substr(words[i].end, words[i + 1].begin - words[i].end);
        pauses += between.find_first_of(".,:;!?\n") != std::string_view::npos ||
                  between.find("\u2013") != std::string_view::npos ||
                  between.find("\u2014") != std::string_view::npos || between.find("\u2026") != std::string_view::npos;
    }
    return syllables / syllablesPerSecond + pauses * pauseSeconds;
}

} // namespace vh::lexicon
