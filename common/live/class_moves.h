#pragma once
// How a class moves: by the clock (`tick`) and by the leader's presses (`apply`). Pure functions; the caller keeps the
// script and the clock. Turns follow each other exactly: each starts when the one before was over, however late `tick`
// is called, so one big step and many small ones give the same state. A time before the state's own changes nothing.
//
// A press says which serial the leader had seen. It counts only if nothing but the clock has moved since, so a press
// that is sent twice moves once. And it means what she saw: go on, back and once more mean that round, skip that step.
// If the clock left that round less than kPressGrace ago, "go on" has already happened and changes nothing, "once more"
// returns to it; if longer ago, the press is refused (oldPlace) and her screen shows where the class is. More time
// means the turn she saw: one that was left less than kPressGrace ago comes back for that long. A jump, and what is to
// be left out, mean the same whatever the clock has done; a step that has begun can no longer be left out.
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
    jump,     ///< the first turn of a step, wherever it stands; one that was left out is in again
    stretch,  ///< more time for this turn; a clock that is held stays so
    leaveOut, ///< exactly these of the coming steps are left out, each of which the script lets go
};

struct Command {
    CommandKind kind = CommandKind::goOn;
    PersonId by; ///< who the session belongs to; never taken from a field of a message
    std::uint32_t leaseEpoch = 0;
    std::uint32_t seenSerial = 0;
    std::optional<StepAt> to{}; ///< jump
    Millis more{0};             ///< stretch: above 0, at most kMostMore
    LeftOut leftOut{};          ///< leaveOut, in any order; none: all that come are in again
};

enum class Refusal : std::uint8_t {
    none,
    oldLease,  ///< somebody has taken the place since
    oldPlace,  ///< the class is elsewhere than the press meant
    notNow,    ///< makes no sense in this phase, or there is nothing further
    notLeader, ///< does not hold the place, or may not take it
    noStep,    ///< the script has no such step, or it may not be left out
    oldScript, ///< the class was corrected meanwhile: this would undo it
    otherPast, ///< a correction in which what has been led is not as it was, or the present place is missing
};

/// `state` is the one to go on with, also after a refusal (the clock has moved it to now).
struct Outcome {
    Refusal refusal = Refusal::none;
    ClassState state;
    bool moved = false; ///< the command itself changed place or phase
};

inline constexpr Millis kPressGrace{2'000};
/// By one press, and of a turn with all of them.
inline constexpr Millis kMostMore{600'000};
inline constexpr Millis kLongestTurn{3'600'000};
inline constexpr std::size_t kMostLeftOut = 100;
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

/// A correction of the script by whoever leads.
struct Revision {
    PersonId by;
    std::uint32_t leaseEpoch = 0;
    std::uint32_t of = 0; ///< the revision that was corrected
};
/// The class goes on with the corrected script, at the same place, in the same turn (it may be longer or shorter by
/// what the correction changes). Everything up to the present turn must have the same sections, rounds and kinds of
/// turn, so that results and places of the past still mean what they did; texts may differ. Coming steps that were left
/// out stay so as long as all steps stand where they stood.
[[nodiscard]] Outcome revise(const ClassScript& old, const ClassScript& script, const ClassState& state,
                             const Revision& revision, Instant now);

/// A relay that came back may know an older place than the leader's app has seen (a change is on disk within 50 ms, not
/// at once). The holder says the latest serial and place she saw; the class goes on there, from the start of that turn.
/// oldPlace: the state is not behind her, it is further behind than any class is long, or her place is not in the
/// script. What she saw as left out is left out, as far as the script lets it go.
struct Seen {
    std::uint32_t serial = 0;
    Place place;
    LeftOut leftOut{};
};
[[nodiscard]] Outcome reassert(const ClassScript& script, const ClassState& state, PersonId who,
                               std::uint32_t leaseEpoch, const Seen& seen, Instant now);

/// When the class will be over if nobody presses anything more; the real end once it has ended.
[[nodiscard]] Instant expectedEnd(const ClassScript& script, const ClassState& state, Instant now);
/// How much later than planned that is, counted from the real start; negative if earlier.
[[nodiscard]] Millis behindPlan(const ClassScript& script, const ClassState& state, Instant now);

std::string_view nameOf(CommandKind kind);
std::string_view nameOf(Refusal refusal);
std::optional<CommandKind> commandKindOf(std::string_view name);
std::optional<Refusal> refusalOf(std::string_view name);

} // namespace vh
