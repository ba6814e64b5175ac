#include "tests/ground/leak_conditions.h"

#include <atomic>
#include <future>
#include <thread>

namespace vh::ground
{

namespace
{

constexpr std::array kLevelsDb{-20, -15, -10, -5, 0, 5, 10, 15, 20, 25};
constexpr int kEachKindUpToDb = 5; ///< above it the kinds of voice take turns in one condition

std::string at(const std::string& what, int leakDb)
{
    std::string text = what + ", leak ";
    if (leakDb > 0)
        text += '+';
    return text + std::to_string(leakDb) + " dB";
}

struct Voices {
    const char* name;
    std::vector<std::optional<Kind>> kinds;
};

const std::vector<Voices>& voices()
{
    static const std::vector<Voices> all{{"steady voices", {Kind::modal, Kind::espeak, Kind::unsteady}},
                                         {"breathy and 5 dB HNR", {Kind::breathy, Kind::hnr5}},
                                         {"0 dB HNR", {Kind::hnr0}},
                                         {"whisper", {Kind::whisper, Kind::espeakWhisper}}};
    return all;
}

void addSpeaking(std::vector<LeakCondition>& all)
{
    std::vector<std::optional<Kind>> everybody;
    for (const Voices& people : voices()) {
        const std::string name = people.name;
        LeakScene headset;
        headset.plays = false;
        all.push_back({name + ", no leak", people.kinds, {std::nullopt}, -60, -60, headset});
        for (const int leak : kLevelsDb)
            if (leak <= kEachKindUpToDb)
                all.push_back({at(name, leak), people.kinds, {std::nullopt}, double(leak), double(leak), {}});
        everybody.insert(everybody.end(), people.kinds.begin(), people.kinds.end());
    }
    for (const int leak : kLevelsDb)
        if (leak > kEachKindUpToDb)
            all.push_back({at("everybody", leak), everybody, {std::nullopt}, double(leak), double(leak), {}});
}

void addSilent(std::vector<LeakCondition>& all)
{
    for (const int leak : kLevelsDb)
        all.push_back({at("silent", leak), {std::nullopt}, {std::nullopt}, double(leak), double(leak), LeakScene{}});
    LeakScene scene = LeakScene{};
    scene.noiseDb = 0;
    all.push_back({"silent, sudden noises, leak -20..+25 dB",
                   {std::nullopt},
                   {Noise::breath, Noise::cough, Noise::door, Noise::whistle},
                   -20,
                   25,
                   scene});
    all.push_back({"silent, steady noises and talk, leak -20..+25 dB",
                   {std::nullopt},
                   {Noise::hum, Noise::fan, Noise::television, Noise::televisionMusic},
                   -20,
                   25,
                   scene});
}

void addSpecial(std::vector<LeakCondition>& all)
{
    const std::vector<std::optional<Kind>> steady = voices().front().kinds;
    LeakScene unison = LeakScene{};
    unison.unison = true;
    all.push_back({"unison, leak -20..-10 dB", steady, {std::nullopt}, -20, -10, unison});
    all.push_back({"unison, leak -10..+10 dB", steady, {std::nullopt}, -10, 10, unison});
    LeakScene jump = LeakScene{};
    jump.jump = true;
    all.push_back({"jump, speaking, leak -20..-10 dB", steady, {std::nullopt}, -20, -10, jump, true});
    all.push_back({"jump, silent, leak -10..+25 dB", {std::nullopt}, {std::nullopt}, -10, 25, jump, true});
    LeakScene copy = LeakScene{};
    copy.secondCopy = true;
    all.push_back({"second copy, speaking, leak -20..-10 dB", steady, {std::nullopt}, -20, -10, copy, true});
    all.push_back({"second copy, silent, leak -10..+25 dB", {std::nullopt}, {std::nullopt}, -10, 25, copy, true});
    LeakScene noise = LeakScene{};
    noise.noiseDb = -10;
    all.push_back({"steady voices among noises, leak -20..-10 dB",
                   steady,
                   {Noise::cough, Noise::door, Noise::whistle, Noise::fan},
                   -20,
                   -10,
                   noise,
                   true});
}

/// The same on every machine. FNV-1a (Fowler, Noll and Vo).
std::uint64_t seedOf(const std::string& name)
{
    std::uint64_t hash = 14695981039346656037ULL;
    for (const char letter : name)
        hash = (hash ^ static_cast<unsigned char>(letter)) * 1099511628211ULL;
    return hash;
}

} // namespace

std::vector<LeakCondition> leakConditions()
{
    std::vector<LeakCondition> all;
    addSpeaking(all);
    addSilent(all);
    addSpecial(all);
    return all;
}

LeakTally runCondition(LeakStore& store, const LeakCondition& condition, int ownTurns, std::uint64_t seed)
{
    Random random(seed ^ seedOf(condition.name));
    LeakTally tally;
    for (std::size_t home = 0; tally.ownTurns() < ownTurns; ++home) {
        LeakScene scene = condition.scene;
        scene.kind = condition.kinds[home % condition.kinds.size()];
        scene.noise = condition.noises[home % condition.noises.size()];
        scene.leakDb = random.between(condition.leakFromDb, condition.leakToDb);
        tally.add(leakTrials(store, scene, 1, random));
    }
    return tally;
}

void runConditions(LeakStore& store, const std::vector<LeakCondition>& conditions, int ownTurns, std::uint64_t seed,
                   const std::function<void(const LeakCondition&, const LeakTally&)>& done)
{
    std::vector<std::promise<LeakTally>> tallies(conditions.size());
    std::atomic<std::size_t> next{0};
    const auto work = [&] {
        for (std::size_t i = next++; i < conditions.size(); i = next++)
            tallies[i].set_value(runCondition(store, conditions[i], ownTurns, seed));
    };
    std::vector<std::jthread> workers;
    for (unsigned i = 0; i < std::max(1U, std::thread::hardware_concurrency()); ++i)
        workers.emplace_back(work);
    for (std::size_t i = 0; i < conditions.size(); ++i)
        done(conditions[i], tallies[i].get_future().get());
}

} // namespace vh::ground
