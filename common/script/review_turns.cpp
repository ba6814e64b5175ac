// How a step goes: ready turns, long vowels, the pace of drills.
#include "common/lexicon/measures.h"
#include "common/script/pace.h"
#include "common/script/review_parts.h"

#include <fmt/format.h>

#include <cmath>

namespace vh::reviewing
{

namespace
{

constexpr Millis kGrain{500};

double secondsOf(Millis time)
{
    return std::chrono::duration<double>(time).count();
}

void ready(const At& at, std::uint32_t roundIndex)
{
    const Round& round = at.step().rounds[roundIndex];
    for (std::uint32_t turn = 0; turn < round.turns.size(); ++turn) {
        const TurnKind kind = round.turns[turn].kind;
        if (kind == TurnKind::ready)
            return;
        if (kind == TurnKind::listen)
            continue;
        Finding& finding = at.add(FindingKind::noReadyTurn, "They speak without a moment to breathe in first.");
        finding.round = roundIndex;
        finding.mend = Mend{Mend::Kind::readyBefore, {}, turn, Millis{2000}};
        return;
    }
}

void longVowel(const At& at, std::uint32_t roundIndex)
{
    if (at.section().kind != SectionKind::sustainedVowel)
        return;
    const Round& round = at.step().rounds[roundIndex];
    for (std::uint32_t turn = 0; turn < round.turns.size(); ++turn) {
        const bool voiced = round.turns[turn].kind == TurnKind::withMe || round.turns[turn].kind == TurnKind::yours;
        if (!voiced || round.turns[turn].planned <= at.rules.longestVowel)
            continue;
        Finding& finding = at.add(FindingKind::vowelTooLong,
                                  fmt::format("A vowel of {:.0f} s, where your longest is {:.0f} s.",
                                              secondsOf(round.turns[turn].planned), secondsOf(at.rules.longestVowel)));
        finding.round = roundIndex;
        finding.mend = Mend{Mend::Kind::turnLength, {}, turn, at.rules.longestVowel};
    }
}

/// Numbers are counted as they are spoken, syllables as in a dictionary.
void pace(const At& at, std::uint32_t roundIndex)
{
    const SectionKind kind = at.section().kind;
    const bool counts = kind == SectionKind::counting;
    if (!at.rules.words || (!counts && kind != SectionKind::backOfTongue))
        return;
    const auto measures = lexicon::measure(at.step().text, *at.rules.words);
    const double amount = counts ? measures.words : measures.syllables;
    const double most = counts ? at.rules.mostNumbersPerSecond : at.rules.mostSyllablesPerSecond;
    const Round& round = at.step().rounds[roundIndex];
    for (std::uint32_t turn = 0; turn < round.turns.size(); ++turn) {
        const bool voiced = round.turns[turn].kind == TurnKind::withMe || round.turns[turn].kind == TurnKind::yours;
        const double seconds = secondsOf(round.turns[turn].planned);
        if (!voiced || amount <= most * seconds)
            continue;
        Finding& finding = at.add(FindingKind::drillTooFast,
                                  fmt::format("{:.1f} {} a second; above {:.0f} some people are tipped into a rush.",
                                              amount / seconds, counts ? "numbers" : "syllables", most));
        finding.round = roundIndex;
        const Millis needed = kToBegin + Millis{std::lround(1000 * amount / most)};
        finding.mend = Mend{Mend::Kind::turnLength, {}, turn, (needed + kGrain - Millis{1}) / kGrain * kGrain};
    }
}

} // namespace

void reviewTurns(const At& at)
{
    for (std::uint32_t round = 0; round < at.step().rounds.size(); ++round) {
        ready(at, round);
        longVowel(at, round);
        pace(at, round);
    }
}

} // namespace vh::reviewing
