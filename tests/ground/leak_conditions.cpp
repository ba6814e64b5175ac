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

LeakScene withDefaults()
{
    return {};
}

void addSpeaking(std::vector<LeakCondition>& all)
{
    for (const Voices& people : voices()) {
        LeakScene headset = withDefaults();
        headset.plays = false;
        all.push_back({std::string(people.name) + ", no leak", people.kinds, {std::nullopt}, -60, -60, headset});
        for (const Range& range : kRanges)
            all.push_back({std::string(people.name) + ", " + range.name,
                           people.kinds,
                           {std::nullopt},
                           range.from,
                           range.to,
                           withDefaults()});
    }
}

void addSilent(std::vector<LeakCondition>& all)
{
    for (const Range& range : kRanges)
        all.push_back({std::string("silent, quiet room, ") + range.name,
                       {std::nullopt},
                       {std::nullopt},
                       range.from,
                       range.to,
                       withDefaults()});
    LeakScene scene = withDefaults();
    scene.noiseDb = 0;
    for (const Range& range : kRanges) {
        all.push_back({std::string("silent, sudden noises, ") + range.name,
                       {std::nullopt},
                       {Noise::breath, Noise::cough, Noise::door, Noise::whistle},
                       range.from,
                       range.to,
                       scene});
        all.push_back({std::string("silent, steady noises and talk, ") + range.name,
                       {std::nullopt},
                       {Noise::hum, Noise::fan, Noise::television, Noise::televisionMusic},
                       range.from,
                       range.to,
                       scene});
    }
}

void addSpecial(std::vector<LeakCondition>& all)
{
    const std::vector<std::optional<Kind>> steady = voices().front().kinds;
    LeakScene unison = withDefaults();
    unison.unison = true;
    all.push_back({"unison, leak -20..-10 dB", steady, {std::nullopt}, -20, -10, unison});
    all.push_back({"unison, leak -10..+10 dB", steady, {std::nullopt}, -10, 10, unison});
    LeakScene jump = withDefaults();
    jump.jump = true;
    all.push_back({"jump, speaking, leak -20..-10 dB", steady, {std::nullopt}, -20, -10, jump});
    all.push_back({"jump, silent, leak -10..+25 dB", {std::nullopt}, {std::nullopt}, -10, 25, jump});
    LeakScene copy = withDefaults();
    copy.secondCopy = true;
    all.push_back({"second copy, speaking, leak -20..-10 dB", steady, {std::nullopt}, -20, -10, copy});
    all.push_back({"second copy, silent, leak -10..+25 dB", {std::nullopt}, {std::nullopt}, -10, 25, copy});
    LeakScene noise = withDefaults();
    noise.noiseDb = -10;
    all.push_back({"steady voices among noises, leak -20..-10 dB",
                   steady,
                   {Noise::cough, Noise::door, Noise::whistle, Noise::fan},
                   -20,
                   -10,
                   noise});
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
    Random random(seed * 977 + std::hash<std::string>{}(condition.name) % 1'000'003);
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
