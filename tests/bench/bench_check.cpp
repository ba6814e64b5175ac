#include "tests/bench/bench_figure.h"
#include "tests/ground/check_trials.h"

#include <chrono>
#include <cstdlib>
#include <string_view>

using namespace vh;
using namespace vh::ground;

int main(int argc, char** argv)
{
    int trials = argc > 1 ? std::atoi(argv[1]) : 20;
    const auto t0 = std::chrono::steady_clock::now();
    const CheckRoom room(8, 10, 21);
    std::fprintf(stderr, "made %.1f s\n", std::chrono::duration<double>(std::chrono::steady_clock::now() - t0).count());
    Random random(5);
    const auto t1 = std::chrono::steady_clock::now();
    int n = 0;
    for (int a = 0; a < 7; ++a, trials = std::atoi(argv[1]) / 4)
        for (const Kind kind : kKinds)
            for (int i = 0; i < trials; ++i) {
                CheckSetting setting;
                setting.kind = kind;
                setting.headphones = argc > 2;
                setting.altering = static_cast<Altering>(a);
                if (random.chance(0.4))
                    setting.noise = kNoises[random.below(7)];
                const CheckOutcome o = runCheck(room, setting, random);
                ++n;
                const CheckFacts& f = o.facts;
                const auto p = f.played.value_or(PlayedProbe::Result{});
                int black = 0;
                for (std::size_t k = 0; k < f.pauses.count(); ++k)
                    black += f.pauses.at(k).black;
                std::printf("%s,%s,%s,%zu,%.1f,%.1f,%.1f,%.1f,%d,%d,%.2f,%u,%d,%.1f,%.1f,%.1f,%.1f,%.1f,%.1f,%.1f,%.1f,%.1f,%.1f,%d,%.1f,%.1f,%d\n",
                            nameOf(setting.altering), nameOf(kind), setting.noise ? nameOf(*setting.noise) : "-",
                            f.pauses.count(), double(f.pauses.riseDb().median), double(f.pauses.underQuietDb().median), double(f.pauses.clearDb().median),
                            double(f.pauses.riseDb().least), black, p.heard, double(p.likeness), p.delayMs, p.tells,
                            double(p.evenedDb), double(p.driftDb), double(p.seenDb), double(p.gainDb),
                            double(f.roomDbfsA.value_or(-200)), double(f.usualDbfsA.value_or(-200)),
                            double(f.louderDbfsA.value_or(-200) - f.usualDbfsA.value_or(-200)), o.louderByDb, o.movedDb, double(p.softerDb), int(o.finding), double(f.playedPauses.riseDb().median), double(f.playedPauses.underQuietDb().median), int(f.playedPauses.count()));
            }
    std::fprintf(stderr, "%d trials, %.1f s\n", n, std::chrono::duration<double>(std::chrono::steady_clock::now() - t1).count());
}
