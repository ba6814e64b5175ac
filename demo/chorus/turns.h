#pragma once
// How a home comes by the numbers of its turns. The home says when a turn begins and ends and how far it has gone; it
// is told of each turn that is over, in order, perhaps a little after it has ended. Two kinds: measured (a voice that
// is made and metered) and canned (numbers from a table, for load). Thread: the loop's.
#include "common/live/place.h"
#include "common/measure/reading.h"
#include "common/wire/to_client.h"
#include "demo/chorus/characters.h"

#include <functional>
#include <memory>

namespace vh::chorus
{

struct TurnBegun {
    Moment moment;  ///< elapsed is 0
    Millis from{0}; ///< of the turn this had gone when the home began to listen
    float bandOffsetDb = 0;
    wire::PlaceNow place;
    std::shared_ptr<const ClassScript> script;
};

struct TurnOver {
    Moment moment;
    float bandOffsetDb = 0;
    std::optional<TurnResult> result; ///< nothing where nobody listened, or there is no usual level to compare with
};

class Turns
{
public:
    virtual ~Turns() = default;

    std::function<void(const TurnOver&)> onOver;

    /// Whether the home can be asked to speak: its mic check is done.
    [[nodiscard]] virtual bool isReady() const { return true; }
    /// A turn that probably comes next: time to think of it.
    virtual void expect(const TurnBegun& /*turn*/) {}
    virtual void begin(const TurnBegun& turn) = 0;
    /// The turn that is on has been given more time, or less: it is to be so long.
    virtual void isToLast(Millis length) = 0;
    /// Of the turn that is on, when so much of it has gone; nothing when there is none to tell.
    [[nodiscard]] virtual std::optional<Reading> reading(Millis spent) = 0;
    virtual void end(Millis spent) = 0;
    /// Another class, or none: turns that are not over never will be.
    virtual void forget() = 0;
};

/// Numbers from a table.
std::unique_ptr<Turns> cannedTurns(Character character, std::uint64_t seed);

} // namespace vh::chorus
