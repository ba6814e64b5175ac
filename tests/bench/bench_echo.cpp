// The figures of a meter that hears only the person: what homes make of turns while the leader comes out of their
// loudspeakers, per turn and on seeds that were not tuned with; and how fast echo and meter are together. Conditions
// (one kind of voice, or silence, at one level of the leak) are named in comment lines (#) with their confusion
// matrices and the 95 % bounds of their rates; the figures are the worst of them. bench_echo [--short] [--only
// speed|turns]
// --short: 40 own turns a condition, to see that it runs; its figures mean nothing.
#include "common/signal/resampler.h"
#include "tests/bench/bench_figure.h"
#include "tests/ground/leak_conditions.h"

#include <chrono>
#include <cmath>
#include <string_view>

using namespace vh;
using namespace vh::ground;

namespace
{

constexpr std::uint64_t kSeed = kFirstUnseenSeed + 34;

/// Of the worst condition, and which it was.
struct Worst {
    double value = 0;
    std::string where = "none";
    void see(double found, const std::string& name)
    {
        if (found > value) {
            value = found;
            where = name;
        }
    }
};

double medianOf(std::vector<double> errors)
{
    for (double& error : errors)
        error = std::abs(error);
    return bench::spreadOf(std::move(errors)).median;
}

double offPercent(const std::vector<double>& errors)
{
    const auto off = std::count_if(errors.begin(), errors.end(), [](double error) { return std::abs(error) > 3; });
    return errors.empty() ? 0 : 100.0 * static_cast<double>(off) / static_cast<double>(errors.size());
}

double percent(int part, int of)
{
    return of == 0 ? 0 : 100.0 * part / of;
}

/// Of all conditions, the worst of each figure.
struct Found {
    Worst praised, praisedOwn, silenced, blank, blankAmongNoises, blankLoud, notCounted, noJudgement, off;
    std::vector<double> errors, errorsNoLeak, errorsWithMe;
    int fewest = 1'000'000; ///< own turns
};

void see(Found& found, const LeakCondition& condition, const LeakTally& tally)
{
    const std::string& name = condition.name;
    found.fewest = std::min(found.fewest, tally.ownTurns());
    if (tally.silentTurns() > 0) {
        found.praised.see(100 * wilsonUpper(tally.praisedSilent(), tally.silentTurns()), name);
        found.praisedOwn.see(100 * wilsonUpper(tally.yoursSilent.praised, tally.yoursSilent.turns), name);
        return;
    }
    found.silenced.see(100 * wilsonUpper(tally.silenced, tally.yoursSpeaking.turns), name);
    auto& errors = condition.scene.plays ? found.errors : found.errorsNoLeak;
    errors.insert(errors.end(), tally.errorsDb.begin(), tally.errorsDb.end());
    if (condition.leakToDb <= -10 && condition.scene.plays)
        found.errorsWithMe.insert(found.errorsWithMe.end(), tally.errorsWithMeDb.begin(), tally.errorsWithMeDb.end());
    found.off.see(offPercent(tally.errorsDb), name);
    const double blank = percent(tally.yoursSpeaking.cantTell + tally.withMeSpeaking.cantTell, tally.turns());
    if (condition.leakToDb > -10)
        found.blankLoud.see(blank, name);
    else if (condition.special)
        found.blankAmongNoises.see(blank, name);
    else {
        found.blank.see(blank, name);
        found.notCounted.see(percent(tally.withMeSpeaking.leaky, tally.withMeSpeaking.turns), name);
        found.noJudgement.see(blank + percent(tally.withMeSpeaking.leaky, tally.turns()), name);
    }
}

void turns(int count, bench::Figures& figures)
{
    LeakStore store(10, 6, 20, kSeed);
    Found found;
    runConditions(store, leakConditions(), count, kSeed, [&](const LeakCondition& condition, const LeakTally& tally) {
        print(condition.name.c_str(), tally);
        see(found, condition, tally);
    });
    const auto where = [](const char* what, const Worst& worst) {
        std::printf("# %s, worst: %s\n", what, worst.where.c_str());
    };
    figures.atLeast("leak_own_turns_fewest_of_a_condition", found.fewest, "turns", 1000);
    where("praised while silent", found.praised);
    figures.atMost("leak_praised_while_silent_worst_condition_95", found.praised.value, "%", 1);
    where("praised while silent in own turns", found.praisedOwn);
    figures.atMost("leak_praised_while_silent_own_turns_worst_condition_95", found.praisedOwn.value, "%", 1);
    where("called silent while speaking", found.silenced);
    figures.atMost("leak_called_silent_while_speaking_worst_condition_95", found.silenced.value, "%", 1);
    figures.atMost("leak_readings_off_by_more_than_3dB", offPercent(found.errors), "%", 2);
    where("readings off by more than 3 dB", found.off);
    figures.reported("leak_readings_off_by_more_than_3dB_worst_condition", found.off.value, "%");
    figures.atMost("leak_reading_error_median", medianOf(found.errors), "dB", 1);
    figures.reported("with_me_reading_error_median_leak_to_-10dB", medianOf(found.errorsWithMe), "dB");
    figures.atMost("no_leak_reading_error_median", medianOf(found.errorsNoLeak), "dB", 0.5);
    where("blank at leak up to -10 dB", found.blank);
    figures.atMost("blank_turns_leak_to_-10dB_worst_condition", found.blank.value, "%", 10);
    where("blank among noises, with a jump or a second copy", found.blankAmongNoises);
    figures.reported("blank_turns_leak_to_-10dB_noises_jumps_second_copy", found.blankAmongNoises.value, "%");
    where("withMe turns not counted at leak up to -10 dB", found.notCounted);
    figures.reported("with_me_turns_not_counted_leak_to_-10dB_worst_condition", found.notCounted.value, "%");
    where("blank or not counted at leak up to -10 dB", found.noJudgement);
    figures.reported("blank_or_not_counted_turns_leak_to_-10dB_worst_condition", found.noJudgement.value, "%");
    where("blank at more leak", found.blankLoud);
    figures.reported("blank_turns_leak_above_-10dB_worst_condition", found.blankLoud.value, "%");
}

Samples at48k(const Samples& samples)
{
    Samples out;
    Resampler resampler(kVoiceRateHz);
    resampler.push(samples, [&](std::span<const float> piece) { out.insert(out.end(), piece.begin(), piece.end()); });
    return out;
}

/// Two classes at 48 kHz: as it is (the far end is silent in a third of the time), and with a leader who never stops.
void speed(bench::Figures& figures)
{
    LeakStore store(2, 2, 8, kSeed);
    Random random(kSeed);
    LeakScene scene;
    scene.kind = Kind::modal;
    const LeakSession session = leakSession(store, scene, 6, random);
    const Samples mic = at48k(session.mic);
    const Samples far = at48k(session.far);
    Samples talking = far;
    for (std::size_t i = 0; i < talking.size(); ++i)
        talking[i] = far[48'000 + i % (8 * 48'000)];
    const auto run = [&](const char* name, const Samples& played) {
        std::vector<double> factors;
        for (int i = 0; i < 5; ++i) {
            CleanEar ear;
            const auto start = std::chrono::steady_clock::now();
            ear.push(std::span(mic).first(std::min(mic.size(), played.size())), played, [](const VoiceFrame&) {});
            const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
            factors.push_back(static_cast<double>(mic.size()) / 48'000 / took.count());
        }
        const bench::Spread spread = bench::spreadOf(factors);
        bench::Figures::spread(name, spread, factors.size());
        return spread.median;
    };
    constexpr const char* kClass = "echo_and_meter_realtime_factor";
    figures.atLeast(kClass, run(kClass, far), "x", 120);
    constexpr const char* kTalking = "echo_and_meter_never_ending_far_end_realtime_factor";
    figures.reported(kTalking, run(kTalking, talking), "x");
}

} // namespace

int main(int argc, char** argv)
{
    bool brief = false;
    std::string_view only;
    for (int i = 1; i < argc; ++i) {
        const std::string_view word = argv[i];
        brief = brief || word == "--short";
        if (word == "--only" && i + 1 < argc)
            only = argv[++i];
    }
    bench::Figures figures;
    if (only.empty() || only == "speed")
        speed(figures);
    if (only.empty() || only == "turns")
        turns(brief ? 40 : 1000, figures);
    return figures.exitCode();
}
