#pragma once
// Small class scripts for the tests of this folder, and a class in motion on a clock that is moved by hand.
#include "common/live/class_lead.h"

#include <random>

namespace vh::testing
{

inline Turn turn(TurnKind kind, int seconds)
{
    return Turn{kind, Millis{seconds * 1000}};
}

/// listen 4 s, ready 2 s, with me 4 s, yours 5 s: 15 s.
inline Round fourTurns()
{
    return Round{
        false,
        {turn(TurnKind::listen, 4), turn(TurnKind::ready, 2), turn(TurnKind::withMe, 4), turn(TurnKind::yours, 5)}};
}

inline Step stepOf(std::vector<Round> rounds)
{
    Step step;
    step.text = "Warm bread, please";
    step.rounds = std::move(rounds);
    return step;
}

/// Opening: one step, one round of one turn of 10 s. Phrases: two steps of two rounds of 15 s each. Closing: 8 s.
/// 78 s in all. Places: 0.0.0; 1.0.0, 1.0.1, 1.1.0, 1.1.1; 2.0.0.
inline ClassScript smallClass()
{
    ClassScript script;
    script.title = "A walk to the baker";
    script.theme = "The bakery";
    script.language = "en";
    script.plannedMinutes = 2;
    script.sections.push_back(
        Section{SectionKind::opening, "Good morning", {stepOf({Round{false, {turn(TurnKind::listen, 10)}}})}});
    script.sections.push_back(Section{SectionKind::phrases,
                                      "At the counter",
                                      {stepOf({fourTurns(), fourTurns()}), stepOf({fourTurns(), fourTurns()})}});
    script.sections.push_back(
        Section{SectionKind::closing, "Until tomorrow", {stepOf({Round{false, {turn(TurnKind::listen, 8)}}})}});
    return script;
}

/// A step of one turn that may be left out.
inline Step optionalStep(int seconds, int dearness)
{
    Step step = stepOf({Round{false, {turn(TurnKind::yours, seconds)}}});
    step.optionalDearness = dearness;
    return step;
}

/// Up to four of everything, half the steps such as may be left out, turns from 1 ms, some of them very short.
inline ClassScript randomClass(std::mt19937& random, int longestMs = 20'000)
{
    const auto upTo = [&random](int most) { return std::uniform_int_distribution<int>(1, most)(random); };
    ClassScript script;
    script.sections.resize(static_cast<std::size_t>(upTo(4)));
    for (Section& section : script.sections) {
        section.steps.resize(static_cast<std::size_t>(upTo(4)));
        for (Step& step : section.steps) {
            if (upTo(2) == 1)
                step.optionalDearness = upTo(3);
            step.rounds.resize(static_cast<std::size_t>(upTo(4)));
            for (Round& round : step.rounds) {
                round.turns.resize(static_cast<std::size_t>(upTo(4)));
                for (Turn& one : round.turns)
                    one = Turn{static_cast<TurnKind>(upTo(4) - 1), Millis{upTo(4) == 1 ? upTo(40) : upTo(longestMs)}};
            }
        }
    }
    return script;
}

inline PersonId person(std::uint8_t number)
{
    PersonId id;
    id.bits.bytes[0] = number;
    return id;
}

inline const PersonId kLeader = person(1);
inline const PersonId kStandIn = person(2);
inline const PersonId kOtherLeader = person(3);
inline const PersonId kSomebody = person(4);

inline constexpr Instant kNoon{Millis{1'700'000'000'000}};

/// A class whose leader gives a sign of life every second unless told otherwise.
struct Class {
    ClassScript script = smallClass();
    Instant now = kNoon;
    ClassState state = openClass(script, 1, kLeader, {kStandIn}, now);
    bool leaderThere = true;

    void wait(Millis by)
    {
        const Instant until = now + by;
        while (now < until) {
            now = std::min(until, now + Millis{1000});
            state = leaderThere ? leaderSeen(script, state, state.lease.holder, now) : tick(script, state, now);
        }
    }

    Outcome press(CommandKind kind, std::uint32_t seenSerial)
    {
        Outcome outcome = apply(script, state, Command{kind, state.lease.holder, state.lease.epoch, seenSerial}, now);
        state = outcome.state;
        return outcome;
    }
    Outcome press(Command command)
    {
        state = tick(script, state, now);
        command.by = state.lease.holder;
        command.leaseEpoch = state.lease.epoch;
        command.seenSerial = state.serial;
        Outcome outcome = apply(script, state, command, now);
        state = outcome.state;
        return outcome;
    }
    Outcome press(CommandKind kind)
    {
        state = tick(script, state, now);
        return press(kind, state.serial);
    }
    Refusal start() { return press(CommandKind::start).refusal; }
};

} // namespace vh::testing
