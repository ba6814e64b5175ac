// The voice's figures: how many times faster than real time one core speaks, how fast a whole home is (voice, room,
// noise and meter), and how many times faster than its clock a class of ours can go with 27 homes on two threads when
// only the turns are spoken in which the leader is silent, as `demo/run --fast` does.
#include "common/script/plan.h"
#include "common/script/reader.h"
#include "demo/chorus/home.h"
#include "demo/chorus/home_ears.h"
#include "demo/chorus/home_sound.h"
#include "demo/chorus/seeded.h"
#include "tests/bench/bench_figure.h"

#include <chrono>
#include <condition_variable>
#include <fstream>
#include <memory>
#include <mutex>
#include <sstream>

using namespace vh;
using namespace vh::chorus;

namespace
{

constexpr int kRuns = 5;
constexpr std::uint32_t kHomes = 27;
constexpr unsigned kThreads = 2;

double secondsSince(std::chrono::steady_clock::time_point start)
{
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

/// Median of some runs of `work`, which gives back how many seconds of sound it made.
template <class Work>
void timesRealTime(bench::Figures& figures, const char* name, double least, Work work)
{
    std::vector<double> factors;
    for (int run = 0; run < kRuns; ++run) {
        const auto start = std::chrono::steady_clock::now();
        const double sound = work();
        factors.push_back(sound / secondsSince(start));
    }
    const bench::Spread spread = bench::spreadOf(factors);
    bench::Figures::spread(name, spread, factors.size());
    figures.atLeast(name, spread.median, "x", least);
}

double speak()
{
    voice::Utterance utterance;
    utterance.text = "They filled it with dark earth up to the seats, and set a pole where the mast had been.";
    utterance.silentSeconds = 1;
    utterance.breathSeconds = 0.5;
    std::size_t samples = 0;
    for (std::uint64_t seed = 1; seed <= 20; ++seed)
        samples += voice::render(utterance, {}, seed).samples.size();
    return static_cast<double>(samples) / voice::kRateHz;
}

struct Spoken {
    Place place;
    Moment moment;
    SpokenLine line;
};

/// Turns in which people speak alone, of a class.
std::vector<Spoken> aloneIn(const ClassScript& script)
{
    std::vector<Spoken> turns;
    for (std::optional<Place> place = Place{}; place; place = nextTurn(script, *place)) {
        const TurnAt at = *turnAt(script, *place);
        if (at.turn->kind != TurnKind::yours || !isVoiced(at.section->kind, at.turn->kind))
            continue;
        Spoken turn;
        turn.place = *place;
        turn.moment.section = at.section->kind;
        turn.moment.moreVoice = at.round->moreVoice;
        turn.moment.length = at.turn->planned;
        turn.line = lineFor(at.section->kind, *at.step, at.turn->planned, 1);
        turns.push_back(turn);
    }
    return turns;
}

/// One home through all its turns, mic check first.
double live(std::uint32_t index, const std::vector<Spoken>& turns)
{
    const HomePlan plan = planOf(index, 1);
    const HomeSound sound(plan.character, plan.seed);
    HomeEars ears(sound.person().gainRiding);
    std::size_t frames = 0;
    (void)ears.check(sound.micCheck());
    for (const Spoken& each : turns)
        frames += ears.listen(sound.turn({each.moment, each.line, mixed({plan.seed, each.place.step})})).size();
    return static_cast<double>(frames) / 100;
}

double wholeClass(const std::vector<Spoken>& turns, double& processor)
{
    std::mutex mutex;
    std::condition_variable wake;
    std::uint32_t left = kHomes;
    Workers workers(kThreads);
    const auto start = std::chrono::steady_clock::now();
    for (std::uint32_t index = 0; index < kHomes; ++index)
        (void)workers.submit([&, index] {
            (void)live(index, turns);
            const std::lock_guard lock(mutex);
            --left;
            wake.notify_one();
        });
    {
        std::unique_lock lock(mutex);
        wake.wait(lock, [&] { return left == 0; });
    }
    const double wall = secondsSince(start);
    processor = workers.busySeconds();
    return wall;
}

} // namespace

int main()
{
    std::ifstream file(VH_SOURCE_DIR "/content/classes/lakeside-plots.yaml");
    std::stringstream text;
    text << file.rdbuf();
    const auto script = readClassScript(text.str(), "lakeside-plots.yaml");
    if (!script) {
        std::puts("# the class script cannot be read");
        return 1;
    }
    const std::vector<Spoken> turns = aloneIn(*script);
    bench::Figures figures;
    timesRealTime(figures, "synthesis_realtime_factor", 200, speak);
    timesRealTime(figures, "home_voice_room_meter_realtime_factor", 100, [&] { return live(0, turns); });
    double processor = 0;
    const double wall = wholeClass(turns, processor);
    figures.atLeast("class_speed_27_homes_alone_turns",
                    static_cast<double>(planOf(*script).total.count()) / 1000 / wall, "x", 4);
    figures.reported("class_speed_cores_used", processor / wall, "cores");
    return figures.exitCode();
}
