#include "tests/ground/leak_conditions.h"

namespace vh::ground
{

namespace
{

struct Range {
    const char* name;
    double from;
    double to;
};
constexpr std::array kRanges{Range{"leak -20..-10 dB", -20, -10}, Range{"leak -10..0 dB", -10, 0},
                             Range{"leak 0..+25 dB", 0, 25}};

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
        for (const Range& range : {kRanges[0], kRanges[1]})
            all.push_back({name + ", " + range.name, people.kinds, {std::nullopt}, range.from, range.to, {}});
        everybody.insert(everybody.end(), people.kinds.begin(), people.kinds.end());
    }
    const Range& loud = kRanges[2];
    all.push_back({std::string("everybody, ") + loud.name, everybody, {std::nullopt}, loud.from, loud.to, {}});
}

void addSilent(std::vector<LeakCondition>& all)
{
    for (const Range& range : kRanges)
        all.push_back({std::string("silent, quiet room, ") + range.name,
                       {std::nullopt},
                       {std::nullopt},
                       range.from,
                       range.to,
                       LeakScene{}});
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

LeakTally runCondition(LeakStore& store, const LeakCondition& condition, int turns, std::uint64_t seed)
{
    Random random(seed ^ seedOf(condition.name));
    LeakTally tally;
    for (std::size_t home = 0; tally.turns() < turns; ++home) {
        LeakScene scene = condition.scene;
        scene.kind = condition.kinds[home % condition.kinds.size()];
        scene.noise = condition.noises[home % condition.noises.size()];
        scene.leakDb = random.between(condition.leakFromDb, condition.leakToDb);
        tally.add(leakTrials(store, scene, 1, random));
    }
    return tally;
}

} // namespace vh::ground
