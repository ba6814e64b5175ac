#include "common/script/to_write.h"

#include "common/lexicon/measures.h"
#include "common/script/step_build.h"

#include <fmt/format.h>

#include <array>

namespace vh::toWrite
{

namespace
{

using namespace build;

/// In turn, so that ten sentences are not ten times the same one.
constexpr std::array<std::string_view, 8> kSentences{"something to call across a room",   "a question to a neighbour",
                                                     "somebody is asked to lend a hand",  "good news, in a few words",
                                                     "something that makes people smile", "a line for the telephone",
                                                     "a small complaint, kindly put",     "something one is proud of"};
constexpr std::array<std::string_view, 4> kGroups{"what one sees and hears there", "what one takes along for it",
                                                  "who has to do with it", "what goes with it, or never would"};
constexpr std::array<std::string_view, 4> kQuestions{"the first time", "somebody who taught them",
                                                     "what they like best about it", "how it was when they were young"};

std::string word(const Theme& theme, std::size_t which)
{
    return theme.words.empty() ? theme.name : theme.words[which % theme.words.size()];
}

/// The letters of its first vowel that can be held; empty if there is none.
std::string heldVowel(const std::string& text)
{
    const auto ranges = lexicon::stretchable(text, lexicon::english());
    return ranges.empty() ? std::string() : text.substr(ranges[0].begin, ranges[0].end - ranges[0].begin);
}

Step open(std::vector<Round> rounds, std::string note)
{
    Step step;
    step.text = kToWrite;
    step.rounds = std::move(rounds);
    step.note = std::move(note);
    return step;
}

} // namespace

Step sentence(const Theme& theme, std::size_t which)
{
    // As long as the sentences of the classes that ship take on average.
    const std::vector<Round> rounds{{false, {listen(seconds(6.5)), ready(), yours(seconds(6.5))}},
                                    {true, {ready(), yours(seconds(6.5))}}};
    const std::string from = word(theme, which);
    const std::string vowel = heldVowel(from);
    const std::string held = vowel.empty() ? std::string() : fmt::format(" (its \"{}\" can be held)", vowel);
    return open(rounds, fmt::format("With \"{}\"{}: {}. Eight to twelve syllables, sayable on one breath{}", from, held,
                                    kSentences[which % kSentences.size()],
                                    vowel.empty() ? ", with a long vowel to stretch." : "."));
}

Step group(const Theme& theme, std::size_t which)
{
    return open({{false, {listen(seconds(6)), ready(), yours(seconds(20))}}},
                fmt::format("Things to name: {} (\"{}\"). Wide enough for ten answers, and none of them wrong.",
                            kGroups[which % kGroups.size()], word(theme, 2 * which)));
}

Step passagePart(const Theme& theme, std::size_t which, std::size_t of)
{
    const std::vector<Round> rounds{{false, {listen(seconds(12)), ready(), withMe(seconds(12))}},
                                    {true, {ready(), yours(seconds(12))}}};
    const std::string words = fmt::format("\"{}\" and \"{}\"", word(theme, 2 * which + 1), word(theme, 2 * which + 2));
    if (which == 0)
        return open(rounds, "The story begins: two short lines, a place and somebody in it, perhaps with " + words +
                                ". Two vowels to stretch.");
    if (which + 1 == of)
        return open(rounds, "It ends well, perhaps with " + words + ". The last line is one to send across the room.");
    return open(rounds, "It goes on, perhaps with " + words + ": two short lines; somebody says something.");
}

Step question(const Theme& theme, std::size_t which)
{
    return open(
        {{false, {listen(seconds(7)), ready(), yours(seconds(25))}}},
        fmt::format("A question about their own lives that everybody can answer and nobody has to: {} (\"{}\").",
                    kQuestions[which % kQuestions.size()], word(theme, 3 * which)));
}

Step leadIn(const Theme& theme)
{
    return open({{false, {listen(seconds(6))}}},
                fmt::format("A line that you say before this exercise: what it has to do with {}.", theme.name));
}

} // namespace vh::toWrite
