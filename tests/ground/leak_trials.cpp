#include "tests/ground/leak_trials.h"

#include "tests/ground/home.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace vh::ground
{

namespace
{

void add(LeakTally::Row& row, const LeakTally::Row& other)
{
    row.turns += other.turns;
    row.notYet += other.notYet;
    row.leaky += other.leaky;
    row.below += other.below;
    row.praised += other.praised;
    row.cantTell += other.cantTell;
    for (std::size_t i = 0; i < row.reasons.size(); ++i)
        row.reasons[i] += other.reasons[i];
}

void count(LeakTally::Row& row, const Outcome& outcome, bool withMe)
{
    ++row.turns;
    switch (outcome.alone) {
    case Standing::inBand:
    case Standing::above:
    case Standing::straining:
        ++row.praised;
        break;
    case Standing::below:
        ++row.below;
        break;
    case Standing::cantTell:
        ++row.cantTell;
        ++row.reasons[static_cast<std::size_t>(outcome.result.reading.reason) % row.reasons.size()];
        break;
    default:
        ++row.notYet;
        row.leaky += withMe && !(outcome.result.around.leakDb <= kLeakNotJudgedAboveDb) ? 1 : 0;
    }
}

double median(std::vector<double> values)
{
    if (values.empty())
        return 0;
    for (double& value : values)
        value = std::abs(value);
    std::sort(values.begin(), values.end());
    return values[values.size() / 2];
}

void print(const char* name, const LeakTally::Row& row)
{
    if (row.turns == 0)
        return;
    std::printf("#   %-16s %5d turns: too little voice %d, not counted %d, below %d, praised %d, cantTell %d", name,
                row.turns, row.notYet - row.leaky, row.leaky, row.below, row.praised, row.cantTell);
    if (row.cantTell > 0) {
        std::printf(" (loudspeaker %d, somebody else %d, room %d)",
                    row.reasons[static_cast<std::size_t>(Blank::loudspeakerTooLoud)],
                    row.reasons[static_cast<std::size_t>(Blank::somebodyElse)],
                    row.reasons[static_cast<std::size_t>(Blank::roomTooNoisy)]);
    }
    std::printf("\n");
}

} // namespace

void LeakTally::add(const LeakTally& other)
{
    ground::add(yoursSilent, other.yoursSilent);
    ground::add(yoursSpeaking, other.yoursSpeaking);
    ground::add(withMeSilent, other.withMeSilent);
    ground::add(withMeSpeaking, other.withMeSpeaking);
    silenced += other.silenced;
    noVoice += other.noVoice;
    errorsDb.insert(errorsDb.end(), other.errorsDb.begin(), other.errorsDb.end());
    errorsAloneDb.insert(errorsAloneDb.end(), other.errorsAloneDb.begin(), other.errorsAloneDb.end());
    errorsWithMeDb.insert(errorsWithMeDb.end(), other.errorsWithMeDb.begin(), other.errorsWithMeDb.end());
}

int LeakTally::turns() const
{
    return yoursSilent.turns + yoursSpeaking.turns + withMeSilent.turns + withMeSpeaking.turns;
}

LeakTally heardAtHome(const LeakSession& session)
{
    LeakTally tally;
    Home home(kVoiceRateHz, static_cast<float>(kLeakUsualDbfsA), static_cast<float>(kLeakRoomDbfsA));
    const std::span<const float> mic(session.mic);
    const std::span<const float> far(session.far);
    const std::size_t first = session.turns.front().begin;
    home.hear(mic.first(first), far.first(first));
    for (const LeakTurn& turn : session.turns) {
        const std::size_t length = turn.end - turn.begin;
        const Outcome outcome =
            home.spoken(turn.kind, mic.subspan(turn.begin, length), far.subspan(turn.begin, length));
        if (turn.kind != TurnKind::yours && turn.kind != TurnKind::withMe)
            continue;
        const bool own = turn.kind == TurnKind::yours;
        count(own ? (turn.spoke ? tally.yoursSpeaking : tally.yoursSilent)
                  : (turn.spoke ? tally.withMeSpeaking : tally.withMeSilent),
              outcome, !own);
        if (own && outcome.running == Standing::noVoice)
            ++(turn.spoke ? tally.silenced : tally.noVoice);
        const bool judged = outcome.alone != Standing::cantTell && outcome.alone != Standing::notYet;
        if (turn.spoke && judged) {
            const double error =
                static_cast<double>(outcome.result.reading.leqOverUsualDb) + kLeakUsualDbfsA - turn.levelDbfsA;
            tally.errorsDb.push_back(error);
            if (!own)
                tally.errorsWithMeDb.push_back(error);
            else if (!turn.spokenInto)
                tally.errorsAloneDb.push_back(error);
        }
    }
    return tally;
}

LeakTally leakTrials(LeakStore& store, const LeakScene& scene, int turns, Random& random, int cycles)
{
    LeakTally tally;
    while (tally.turns() < turns)
        tally.add(heardAtHome(leakSession(store, scene, cycles, random)));
    return tally;
}

void print(const char* name, const LeakTally& tally)
{
    std::printf("# %s\n", name);
    print("yours, silent", tally.yoursSilent);
    print("withMe, silent", tally.withMeSilent);
    print("yours, speaking", tally.yoursSpeaking);
    print("withMe, speaking", tally.withMeSpeaking);
    const auto rate = [](const char* words, int hits, int of) {
        std::printf("#   %s: %d of %d, at most %.2f %%\n", words, hits, of, 100 * wilsonUpper(hits, of));
    };
    if (tally.silentTurns() > 0) {
        rate("praised while silent", tally.praisedSilent(), tally.silentTurns());
        rate("  in own turns", tally.yoursSilent.praised, tally.yoursSilent.turns);
    }
    if (tally.yoursSpeaking.turns > 0)
        rate("called silent while speaking", tally.silenced, tally.yoursSpeaking.turns);
    if (tally.noVoice > 0)
        std::printf("#   called silent, rightly: %d\n", tally.noVoice);
    if (!tally.errorsDb.empty()) {
        const auto off =
            std::count_if(tally.errorsDb.begin(), tally.errorsDb.end(), [](double e) { return std::abs(e) > 3; });
        std::printf("#   %zu read: median off by %.2f dB, own turns alone %.2f dB, withMe %.2f dB, %.1f %% off by more "
                    "than 3 dB\n",
                    tally.errorsDb.size(), median(tally.errorsDb), median(tally.errorsAloneDb),
                    median(tally.errorsWithMeDb),
                    100.0 * static_cast<double>(off) / static_cast<double>(tally.errorsDb.size()));
    }
    std::fflush(stdout);
}

} // namespace vh::ground
