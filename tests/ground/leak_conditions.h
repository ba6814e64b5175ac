#pragma once
// The conditions of the leak's proving ground: kind of voice (or nobody speaking) by how loud the leader comes back, in
// steps of 5 dB; and a few in which more happens, over a range of levels. Conditions run on all cores at once, with the
// same outcome on any number of them.
#include "tests/ground/leak_trials.h"

#include <functional>
#include <string>

namespace vh::ground
{

struct LeakCondition {
    std::string name;
    std::vector<std::optional<Kind>> kinds;   ///< taken in turn, by home; nothing: silent
    std::vector<std::optional<Noise>> noises; ///< the same
    double leakFromDb = 0;                    ///< each home has one between these
    double leakToDb = 0;
    LeakScene scene;      ///< what else is so
    bool special = false; ///< something happens that need not go without blanks
};

std::vector<LeakCondition> leakConditions();
/// So many of the person's own turns, or a home more.
LeakTally runCondition(LeakStore& store, const LeakCondition& condition, int ownTurns, std::uint64_t seed);
/// All of them; `done` is called on this thread, in their order.
void runConditions(LeakStore& store, const std::vector<LeakCondition>& conditions, int ownTurns, std::uint64_t seed,
                   const std::function<void(const LeakCondition&, const LeakTally&)>& done);

} // namespace vh::ground
