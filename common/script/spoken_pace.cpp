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

} // namespace

std::optional<Millis> plannedAsSpoken(std::string_view language, TurnKind kind, std::string_view text,
                                      std::size_t stretches)
{
    if (kind == TurnKind::ready)
        return kReadyLength;
    if (language != "en" && !language.starts_with("en-"))
        return plannedByRule(kind, text, stretches);
    const double seconds = lexicon::speakingSeconds(text, lexicon::english(), kSyllablesPerSecond, kAtAComma);
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
