// The figures of the mic check: microphones that the computer alters and lines that are no microphone of this person,
// found; ordinary ones let pass. At least 1,000 checks a figure, on seeds that were not tuned with, over all kinds of
// voice. An altered microphone counts where the gain that the person's own voice got was 3 dB or more from constant;
// others are drawn anew. Comment lines (#) name what each figure is made of.
// bench_check [--short]: 40 checks a figure, to see that it runs; its figures mean nothing.
#include "tests/bench/bench_figure.h"
#include "tests/ground/check_trials.h"

#include <array>
#include <map>
#include <string>
#include <string_view>

using namespace vh;
using namespace vh::ground;

namespace
{

constexpr std::uint64_t kSeed = kFirstUnseenSeed + 41;
constexpr double kMovedDb = 3;

struct Count {
    int checks = 0;
    int altered = 0; ///< found to be, one way or the other
    int wrong = 0;   ///< no sound, or the wrong device
    int fine = 0;    ///< passed
    std::map<CheckFinding, int> findings;
    [[nodiscard]] double percent(int part) const { return 100.0 * part / checks; }
};

void count(Count& all, const CheckOutcome& outcome)
{
    ++all.checks;
    ++all.findings[outcome.finding];
    all.altered += outcome.finding == CheckFinding::gated || outcome.finding == CheckFinding::ridesGain ? 1 : 0;
    all.wrong += outcome.finding == CheckFinding::noSound || outcome.finding == CheckFinding::wrongDevice ? 1 : 0;
    all.fine += levelsHold(outcome.finding) ? 1 : 0;
}

void say(const std::string& what, const Count& all)
{
    std::printf("# %s: %d checks; alters the sound %d, wrong device or no sound %d, passed %d, other %d\n",
                what.c_str(), all.checks, all.altered, all.wrong, all.fine,
                all.checks - all.altered - all.wrong - all.fine);
    std::fflush(stdout);
}

class Bench
{
public:
    explicit Bench(bool brief) : m_room(brief ? 2 : 12, brief ? 3 : 16, kSeed), m_random(kSeed + 1), m_brief(brief) {}

    Count run(Altering altering, int checks, bool headphones, std::span<const Noise> noises, Wire wire = Wire::person)
    {
        Count all;
        for (int drawn = 0; all.checks < (m_brief ? checks / 25 : checks) && drawn < 20 * checks; ++drawn) {
            CheckSetting setting;
            setting.altering = altering;
            setting.wire = wire;
            setting.headphones = headphones;
            setting.kind = kKinds[m_random.below(kKinds.size())];
            if (m_random.chance(0.4))
                setting.noise = noises[m_random.below(noises.size())];
            const CheckOutcome outcome = runCheck(m_room, setting, m_random);
            if (altering == Altering::nothing || outcome.movedDb >= kMovedDb)
                count(all, outcome);
        }
        say(std::string(nameOf(altering)) + (wire == Wire::person ? "" : std::string(", ") + nameOf(wire)) +
                (headphones ? ", headphones" : ""),
            all);
        return all;
    }

private:
    CheckRoom m_room;
    Random m_random;
    bool m_brief;
};

Count operator+(Count one, const Count& other)
{
    one.checks += other.checks;
    one.altered += other.altered;
    one.wrong += other.wrong;
    one.fine += other.fine;
    return one;
}

/// A class could be held there. Somebody whistling or panting all through is in the false alarms only: beside a gain
/// that brings it up to the voice, the check rightly speaks of the room.
constexpr std::array kHomes{Noise::fan, Noise::hum, Noise::door, Noise::cough, Noise::dog};
constexpr std::array kAll{Noise::breath, Noise::cough, Noise::door, Noise::dog, Noise::whistle, Noise::hum, Noise::fan};

void falseAlarms(Bench& bench, bench::Figures& figures)
{
    const Count open = bench.run(Altering::nothing, 1000, false, kAll);
    const Count closed = bench.run(Altering::nothing, 1000, true, kAll);
    const Count both = open + closed;
    figures.atMost("check_false_alarms_loudspeaker", open.percent(open.altered + open.wrong), "%", 2);
    figures.atMost("check_false_alarms_headphones", closed.percent(closed.altered + closed.wrong), "%", 2);
    figures.reported("check_ordinary_passed", both.percent(both.fine), "%");
}

void altered(Bench& bench, bench::Figures& figures)
{
    const Count gain =
        bench.run(Altering::gain, 500, false, kHomes) + bench.run(Altering::gainHeld, 500, false, kHomes);
    const Count gates =
        bench.run(Altering::gate, 500, false, kHomes) + bench.run(Altering::expander, 500, false, kHomes);
    figures.atLeast("check_gain_riding_found", gain.percent(gain.altered), "%", 95);
    figures.atLeast("check_gated_found", gates.percent(gates.altered), "%", 95);
    const Count outsideGain = bench.run(Altering::outsideGain, 200, false, kHomes);
    const Count outsideNoise = bench.run(Altering::outsideNoiseSuppressor, 200, false, kHomes);
    figures.reported("check_outside_gain_control_found", outsideGain.percent(outsideGain.altered), "%");
    figures.reported("check_outside_noise_suppressor_found", outsideNoise.percent(outsideNoise.altered), "%");
    const Count deafGain =
        bench.run(Altering::gain, 100, true, kHomes) + bench.run(Altering::gainHeld, 100, true, kHomes);
    const Count deafGates =
        bench.run(Altering::gate, 100, true, kHomes) + bench.run(Altering::expander, 100, true, kHomes);
    figures.reported("check_gain_riding_found_headphones", deafGain.percent(deafGain.altered), "%");
    figures.reported("check_gated_found_headphones", deafGates.percent(deafGates.altered), "%");
}

void wrongDevices(Bench& bench, bench::Figures& figures)
{
    Count all;
    for (const Wire wire : {Wire::monitor, Wire::elsewhere, Wire::hum, Wire::dead})
        all = all + bench.run(Altering::nothing, 250, false, kHomes, wire);
    figures.atLeast("check_wrong_device_found", all.percent(all.wrong), "%", 95);
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
