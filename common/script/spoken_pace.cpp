#include "common/script/spoken_pace.h"

#include "common/lexicon/measures.h"

#include <cmath>

namespace vh
{

namespace
{

// Fitted to what another program's voice needs at the pace of clear speech (tests/bench/bench_pace.cpp). With its
// pauses that is about 2.5 syllables a second, unhurried reading aloud in a group.
constexpr double kSyllablesPerSecond = 2.8;
constexpr double kAtAComma = 0.7; ///< seconds
constexpr Millis kPerHeldVowel{800};

/// Marks with text before and behind them at which one pauses; several in a row are one.
int pausesIn(std::string_view text)
{
    constexpr std::string_view kMarks = ".,:;!?\n";
    constexpr std::string_view kBetween = " \"'";
    int pauses = 0;
    bool saidSomething = false;
    bool atMark = false;
    for (const char c : text) {
        if (kMarks.find(c) != std::string_view::npos) {
            atMark = saidSomething;
        } else if (kBetween.find(c) == std::string_view::npos) {
            pauses += atMark;
            atMark = false;
            saidSomething = true;
        }
    }
    return pauses;
}

double secondsToSay(std::string_view language, std::string_view text)
{
    if (language == "en" || language.starts_with("en-"))
        return lexicon::speakingSeconds(text, lexicon::english(), kSyllablesPerSecond, kAtAComma);
    const int syllables = vowelGroups(text);
    return syllables == 0 ? 0 : syllables / kSyllablesPerSecond + pausesIn(text) * kAtAComma;
}

} // namespace

std::optional<Millis> plannedAsSpoken(std::string_view language, TurnKind kind, std::string_view text,
                                      std::size_t stretches)
{
    if (kind == TurnKind::ready)
        return kReadyLength;
    const double seconds = secondsToSay(language, text);
    if (seconds <= 0)
        return std::nullopt;
    return roundedLength(kToBegin + Millis{std::lround(1000 * seconds)} +
                         kPerHeldVowel * static_cast<std::int64_t>(stretches));
}

Step withSpokenLengths(Step step, std::string_view language)
{
    for (Round& round : step.rounds)
        for (Turn& turn : round.turns)
            if (turn.kind != TurnKind::ready)
                turn.planned =
                    plannedAsSpoken(language, turn.kind, step.text, step.stretches.size()).value_or(turn.planned);
    return step;
}

} // namespace vh
