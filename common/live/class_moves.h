#pragma once
// How a class moves: by the clock (`tick`) and by the leader's presses (`apply`). Pure functions; the caller keeps the
// script and the clock. Turns follow each other exactly: each starts when the one before was over, however late `tick`
// is called, so one big step and many small ones give the same state. A time before the state's own changes nothing.
//
// A press says which serial the leader had seen. It counts only if nothing but the clock has moved since, so a press
// that is sent twice moves once. And it means what she saw: go on, back and once more mean that round, skip that step.
// If the clock left that round less than kPressGrace ago, "go on" has already happened and changes nothing, "once more"
// returns to it; if longer ago, the press is refused (oldPlace) and her screen shows where the class is.
#include "common/live/class_state.h"

namespace vh
{

enum class CommandKind : std::uint8_t {
    start,
    goOn,     ///< the next round now; at the last round there is none (the clock or `end` ends the class)
    back,     ///< the start of the round before, always: "once more" is the key for this one. At the first: its start
    onceMore, ///< this round again, from its start
    wait,     ///< hold the clock
    resume,   ///< and let it run on from there
    skip,     ///< leave out the rest of this step
    end,
};

struct Command {
    CommandKind kind = CommandKind::goOn;
    PersonId by; ///< who the session belongs to; never taken from a field of a message
    std::uint32_t leaseEpoch = 0;
    std::uint32_t seenSerial = 0;
};

enum class Refusal : std::uint8_t {
    none,
    oldLease,  ///< somebody has taken the place since
    oldPlace,  ///< the class is elsewhere than the press meant
    notNow,    ///< makes no sense in this phase, or there is nothing further
    notLeader, ///< does not hold the place, or may not take it
};

/// `state` is the one to go on with, also after a refusal (the clock has moved it to now).
struct Outcome {
    Refusal refusal = Refusal::none;
    ClassState state;
    bool moved = false; ///< the command itself changed place or phase
};

inline constexpr Millis kPressGrace{2'000};
/// By how much a serial can be raised at once: far more than a relay can lose, and far from where numbers wrap.
inline constexpr std::uint32_t kMostSerialsLost = 10'000;

/// A class that has not started. The script must have a first turn.
[[nodiscard]] ClassState openClass(const ClassScript& script, std::uint32_t revision, PersonId leader,
                                   std::vector<PersonId> standIns, Instant now);

/// Any move (go on, back, once more, skip) also lets the clock run.
[[nodiscard]] Outcome apply(const ClassScript& script, const ClassState& state, const Command& command, Instant now);

/// Everything that has become due: turns, the end after the last, a leader falling silent, the calm pause.
[[nodiscard]] ClassState tick(const ClassScript& script, const ClassState& state, Instant now);
/// When `tick` will next change something; nothing if only people can.
[[nodiscard]] std::optional<Instant> nextChangeAt(const ClassState& state);

/// The class goes on with another revision of its script, which must have a turn at the present place (notNow if not).
[[nodiscard]] Outcome revise(const ClassScript& old, const ClassScript& script, const ClassState& state,
                             std::uint32_t revision, Instant now);

/// A relay that came back may know an older place than the leader's app has seen (a change is on disk within 50 ms, not
/// at once). The holder says the latest serial and place she saw; the class goes on there, from the start of that turn.
/// oldPlace: the state is not behind her, it is further behind than any class is long, or her place is not in the
/// script.
[[nodiscard]] Outcome reassert(const ClassScript& script, const ClassState& state, PersonId who,
                               std::uint32_t leaseEpoch, std::uint32_t seenSerial, const Place& seenPlace, Instant now);

/// When the class will be over if nobody presses anything more; the real end once it has ended.
[[nodiscard]] Instant expectedEnd(const ClassScript& script, const ClassState& state, Instant now);
/// How much later than planned that is, counted from the real start; negative if earlier.
[[nodiscard]] Millis behindPlan(const ClassScript& script, const ClassState& state, Instant now);

std::string_view nameOf(CommandKind kind);
std::string_view nameOf(Refusal refusal);
std::optional<CommandKind> commandKindOf(std::string_view name);
std::optional<Refusal> refusalOf(std::string_view name);

} // namespace vh
