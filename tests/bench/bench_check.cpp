// The figures of the mic check: microphones that the computer alters and lines that are no microphone of this person,
// found; ordinary ones let pass. 1,000 checks for each figure with a target, on seeds that were not tuned with, over
// all kinds of voice and all noises. An altered microphone counts where it does harm (check_trials.h says what that
// is); others are drawn anew, and what became of them is said in a comment line (#). Each figure with a target is the
// end of its 95 % interval that lies on the wrong side (Wilson 1927); what was found is reported beside it. bench_check
// [--short]: 40 checks a figure, to see that it runs; its figures mean nothing.
#include "tests/bench/bench_figure.h"
#include "tests/ground/check_trials.h"
#include "tests/ground/trials.h"

#include <algorithm>
#include <string>
#include <string_view>

using namespace vh;
using namespace vh::ground;

namespace
{

constexpr std::uint64_t kSeed = kFirstUnseenSeed + 43;
struct Count {
    int checks = 0;
    int altered = 0;  ///< found to be, one way or the other
    int wrong = 0;    ///< no sound, or the wrong device
    int fine = 0;     ///< passed
    int harmless = 0; ///< drawn, but no harm done: not asked
    [[nodiscard]] double percent(int part) const { return 100.0 * part / std::max(1, checks); }
};

Count operator+(Count one, const Count& other)
{
    one.checks += other.checks;
    one.altered += other.altered;
    one.wrong += other.wrong;
    one.fine += other.fine;
    one.harmless += other.harmless;
    return one;
}

bool saysAltered(CheckFinding finding)
{
    return finding == CheckFinding::gated || finding == CheckFinding::ridesGain;
}

void count(Count& all, CheckFinding finding)
{
    ++all.checks;
    all.altered += saysAltered(finding) ? 1 : 0;
    all.wrong += finding == CheckFinding::noSound || finding == CheckFinding::wrongDevice ? 1 : 0;
    all.fine += levelsHold(finding) ? 1 : 0;
}

class Bench
{
public:
    explicit Bench(bool brief) : m_room(brief ? 2 : 10, brief ? 3 : 14, kSeed), m_random(kSeed + 1), m_brief(brief) {}

    /// So many that count; of what seldom does harm no more than eight times as many are drawn.
    Count run(Altering altering, int checks, bool headphones, Wire wire = Wire::person)
    {
        Count all;
        const int wanted = m_brief ? checks / 25 : checks;
        for (int drawn = 0; all.checks < wanted && drawn < 8 * wanted; ++drawn) {
            CheckSetting setting;
            setting.altering = altering;
            setting.wire = wire;
            setting.headphones = headphones;
            setting.harmfulOnly = altering != Altering::nothing;
            setting.kind = kKinds[m_random.below(kKinds.size())];
            if (m_random.chance(0.4))
                setting.noise = kCheckNoises[m_random.below(kCheckNoises.size())];
            const CheckOutcome outcome = runCheck(m_room, setting, m_random);
            if (altering == Altering::nothing || doesHarm(outcome.harm)) {
                count(all, outcome.finding);
            } else {
                ++all.harmless;
            }
        }
        say(std::string(nameOf(altering)) + (wire == Wire::person ? "" : std::string(", ") + nameOf(wire)) +
                (headphones ? ", headphones" : ""),
            all);
        return all;
    }

private:
    static void say(const std::string& what, const Count& all)
    {
        std::printf("# %s: %d checks; alters the sound %d, wrong device or no sound %d, passed %d, other %d",
                    what.c_str(), all.checks, all.altered, all.wrong, all.fine,
                    all.checks - all.altered - all.wrong - all.fine);
        if (all.harmless > 0)
            std::printf("; %d more were drawn that do no harm", all.harmless);
        std::printf("\n");
        std::fflush(stdout);
    }

    CheckRoom m_room;
    Random m_random;
    bool m_brief;
};

void found(bench::Figures& figures, const std::string& name, const Count& all, int hits)
{
    figures.reported(name.c_str(), all.percent(hits), "%");
    figures.atLeast((name + "_at_least").c_str(), 100 - 100 * wilsonUpper(all.checks - hits, all.checks), "%", 95);
}

void falseAlarms(Bench& bench, bench::Figures& figures)
{
    for (const bool headphones : {false, true}) {
        const Count all = bench.run(Altering::nothing, 1000, headphones);
        const std::string name = std::string("check_false_alarms_") + (headphones ? "headphones" : "loudspeaker");
        figures.reported(name.c_str(), all.percent(all.altered + all.wrong), "%");
        figures.atMost((name + "_at_most").c_str(), 100 * wilsonUpper(all.altered + all.wrong, all.checks), "%", 2);
        figures.reported((name + "_passed").c_str(), all.percent(all.fine), "%");
    }
}

void altered(Bench& bench, bench::Figures& figures)
{
    for (const bool headphones : {false, true}) {
        const std::string where = headphones ? "_headphones" : "";
        const Count gain = bench.run(Altering::gain, 500, headphones) + bench.run(Altering::gainHeld, 500, headphones);
        found(figures, "check_gain_riding_found" + where, gain, gain.altered);
        const int gated = headphones ? 50 : 500; // reported only, with headphones
        const Count gates =
            bench.run(Altering::gate, gated, headphones) + bench.run(Altering::expander, gated, headphones);
        if (headphones)
            figures.reported("check_gated_found_headphones", gates.percent(gates.altered), "%");
        else
            found(figures, "check_gated_found", gates, gates.altered);
        const Count outsideGain = bench.run(Altering::outsideGain, 100, headphones);
        figures.reported(("check_outside_gain_control_found" + where).c_str(), outsideGain.percent(outsideGain.altered),
                         "%");
        const Count outsideNoise = bench.run(Altering::outsideNoiseSuppressor, 50, headphones);
        figures.reported(("check_outside_noise_suppressor_found" + where).c_str(),
                         outsideNoise.percent(outsideNoise.altered), "%");
    }
}

void wrongDevices(Bench& bench, bench::Figures& figures)
{
    Count all;
    for (const Wire wire : {Wire::monitor, Wire::elsewhere, Wire::hum, Wire::dead})
        all = all + bench.run(Altering::nothing, 250, false, wire);
    found(figures, "check_wrong_device_found", all, all.wrong);
}

} // namespace

int main(int argc, char** argv)
{
    Bench bench(argc > 1 && std::string_view(argv[1]) == "--short");
    bench::Figures figures;
    wrongDevices(bench, figures);
    falseAlarms(bench, figures);
    altered(bench, figures);
    return figures.exitCode();
}
