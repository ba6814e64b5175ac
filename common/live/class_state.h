#pragma once
// A class in motion, as a plain value: where it is, since when, who leads it and whether she is there. The hall holds
// the one that counts; rehearsal and practising alone hold their own. Changed only by the functions of class_moves.h
// and class_lead.h, which take a state and the time and give back the next state. Times are server time.
#include "common/base/clock.h"
#include "common/base/id.h"
#include "common/live/place.h"

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

namespace vh
{

enum class Phase : std::uint8_t {
    notStarted,
    running,
    waiting,   ///< the leader holds the clock
    calmPause, ///< the leader has been gone for half a minute: the clock is held until somebody who leads goes on
    ended,
};

/// Leading is a lease: whoever takes the place gets a higher epoch, and commands of older ones are refused.
struct Lease {
    PersonId holder;
    std::uint32_t epoch = 1;
    Instant lastSeen{}; ///< last sign of life of the holder
    friend bool operator==(const Lease&, const Lease&) = default;
};

struct ClassState {
    Phase phase = Phase::notStarted;
    Place place;
    std::uint32_t revision = 0;      ///< of the script that `place` points into
    std::uint32_t serial = 0;        ///< one more at every change of place, phase or revision; never goes back
    std::uint32_t turnSerial = 0;    ///< the serial with which this turn began: the turn's id, also across a wait
    std::uint32_t pressedSerial = 0; ///< serial of the last change that was not simply the clock moving on
    Instant turnStartedAt{};         ///< running: when it began, moved on by however long it was held
    Millis turnSpent{0};             ///< not running: how much of the turn had gone when the clock was held
    Millis turnLength{0};            ///< as planned, and what the leader has given it besides
    /// Of the whole class, those that have been passed too.
    LeftOut leftOut;
    std::optional<Instant> startedAt;
    std::optional<Instant> endedAt;
    PersonId leader; ///< who opened the class; may always take the place back
    std::vector<PersonId> standIns;
    Lease lease;
    std::optional<Instant>
        silentSince; ///< set once the holder has not been heard for kSilentAfter: her last sign of life
    friend bool operator==(const ClassState&, const ClassState&) = default;
};

inline constexpr Millis kSilentAfter{3'000};     ///< then homes say so in words
inline constexpr Millis kCalmPauseAfter{30'000}; ///< since the last sign of life; then the clock is held

/// How much of the present turn has gone.
[[nodiscard]] Millis turnSpent(const ClassState& state, Instant now);

/// The class's situation, for one plain line on the screens of the homes.
enum class HomeLine : std::uint8_t {
    classNotStarted,
    classRuns,
    classWaits,
    leaderAway,
    calmPause,
    standInLeads,
    ended
};
[[nodiscard]] HomeLine homeLine(const ClassState& state);

/// Names for the wire: "notStarted", "running", "waiting", "calmPause", "ended".
std::string_view nameOf(Phase phase);
std::optional<Phase> phaseOf(std::string_view name);

} // namespace vh
