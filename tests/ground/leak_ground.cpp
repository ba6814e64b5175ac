// Prints what homes make of turns while the leader comes out of their loudspeakers, condition by condition: the
// confusion matrix of standings, what was called silent, and how far the levels are off.
// leak_ground [--turns N, of the person's own] [--seed S] [--only WORD] (conditions whose name has WORD in it)
#include "tests/ground/leak_conditions.h"

#include <cstdio>
#include <cstdlib>
#include <string>

using namespace vh::ground;

int main(int argc, char** argv)
{
    int turns = 200;
    std::uint64_t seed = 1;
    std::string only;
    for (int i = 1; i + 1 < argc; i += 2) {
        const std::string word = argv[i];
        if (word == "--turns")
            turns = std::atoi(argv[i + 1]);
        else if (word == "--seed")
            seed = std::strtoull(argv[i + 1], nullptr, 10);
        else if (word == "--only")
            only = argv[i + 1];
    }
    LeakStore store(8, 6, 12, seed);
    std::vector<LeakCondition> conditions = leakConditions();
    std::erase_if(conditions, [&](const LeakCondition& each) { return each.name.find(only) == std::string::npos; });
    runConditions(store, conditions, turns, seed,
                  [](const LeakCondition& condition, const LeakTally& tally) { print(condition.name.c_str(), tally); });
    return 0;
}
