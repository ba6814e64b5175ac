#pragma once
// Turns by the hundred in homes where the leader comes out of a loudspeaker: what the home makes of them, beside the
// truth. A confusion matrix per condition. Any thread, each on its own.
#include "tests/ground/leak_session.h"
#include "tests/ground/trials.h"

namespace vh::ground
{

/// By the standing that a turn by itself gave: rows of the matrix are silent and speaking, for yours and withMe.
struct LeakTally {
    struct Row {
        int turns = 0;
        int notYet = 0; ///< too little voice, or not counted
        int leaky = 0;  ///< of these, withMe turns that do not count: what is left of the leak is within 10 dB
        int below = 0;
        int praised = 0; ///< in the band or above
        int cantTell = 0;
        std::array<int, 8> reasons{}; ///< of cantTell, by Blank
    };
    Row yoursSilent, yoursSpeaking, withMeSilent, withMeSpeaking;
    int silenced = 0;                  ///< "no voice heard" stood after a yours turn in which the person spoke
    int noVoice = 0;                   ///< the same where they were silent: right
    std::vector<double> errorsDb;      ///< level read, less the true level, of what was judged
    std::vector<double> errorsAloneDb; ///< of these, own turns into which nobody spoke
    std::vector<double> errorsWithMeDb;
    void add(const LeakTally& other);
    [[nodiscard]] int turns() const;
    [[nodiscard]] int praisedSilent() const { return yoursSilent.praised + withMeSilent.praised; }
    [[nodiscard]] int silentTurns() const { return yoursSilent.turns + withMeSilent.turns; }
    /// The person's own, twice as many as withMe turns.
    [[nodiscard]] int ownTurns() const { return yoursSilent.turns + yoursSpeaking.turns; }
};

/// At least so many turns (yours and withMe) of that scene, homes of `cycles` rounds each.
LeakTally leakTrials(LeakStore& store, const LeakScene& scene, int turns, Random& random, int cycles = 10);
/// One session through a home.
LeakTally heardAtHome(const LeakSession& session);
/// The matrix, and both rates with the 95 % interval's upper end (Wilson).
void print(const char* name, const LeakTally& tally);

} // namespace vh::ground
