#pragma once
// The conditions of the leak's proving ground: kind of voice (or noise, and nobody speaking) by how loud the leader
// comes back. Each pools what belongs together. Thread: one.
#include "tests/ground/leak_trials.h"

#include <string>

namespace vh::ground
{

struct LeakCondition {
    std::string name;
    std::vector<std::optional<Kind>> kinds;   ///< taken in turn, by home; nothing: silent
    std::vector<std::optional<Noise>> noises; ///< the same
    double leakFromDb = 0;
    double leakToDb = 0;
    LeakScene scene;      ///< what else is so
    bool special = false; ///< something happens that need not go without blanks
};

std::vector<LeakCondition> leakConditions();
LeakTally runCondition(LeakStore& store, const LeakCondition& condition, int turns, std::uint64_t seed);

} // namespace vh::ground
