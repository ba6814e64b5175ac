#include "tests/ground/trials.h"

#include <algorithm>
#include <cmath>

namespace vh::ground
{

namespace
{

constexpr int kRate = kVoiceRateHz;
constexpr double kUsualDbfsA = -45;
constexpr double kQuietRoomDbfsA = -77;
constexpr double kWhisperUnderUsualDb = 15;
constexpr double kStreamSeconds = 61.3;
constexpr int kTurnsPerHome = 25;
constexpr double kWarmSeconds = 2;
constexpr double kFirstListenSeconds = 4;
constexpr double kListenSeconds = 1.2;
constexpr double kReadySeconds = 0.8;
constexpr double kYoursSeconds = 4.2;
constexpr double kSaidSeconds = 3.6;

double gainOf(double db)
{
    return std::pow(10.0, db / 20);
}

bool isContinuous(Noise noise)
{
    return noise == Noise::hum || noise == Noise::fan;
}

bool talks(std::optional<Noise> noise)
{
    return noise == Noise::television || noise == Noise::televisionMusic;
}

bool isWhisper(Kind kind)
{
    return kind == Kind::whisper || kind == Kind::espeakWhisper;
}

void count(Tally& tally, const Outcome& outcome, bool spoke)
{
    ++tally.turns;
    const Standing alone = outcome.alone;
    const Reading& reading = outcome.result.reading;
    tally.praised += !spoke && (alone == Standing::inBand || alone == Standing::above) ? 1 : 0;
    tally.silenced += spoke && outcome.running == Standing::noVoice ? 1 : 0;
    tally.unheard += spoke && !heard(reading) ? 1 : 0;
    tally.cantTell += alone == Standing::cantTell ? 1 : 0;
    tally.trusted += alone != Standing::cantTell && reading.voicedMs >= kVoiceToJudgeMs ? 1 : 0;
}

} // namespace

void Tally::add(const Tally& other)
{
    turns += other.turns;
    praised += other.praised;
    silenced += other.silenced;
    unheard += other.unheard;
    cantTell += other.cantTell;
    trusted += other.trusted;
    errorsDb.insert(errorsDb.end(), other.errorsDb.begin(), other.errorsDb.end());
}

LevelErrors levelErrors(const Tally& tally)
{
    std::vector<double> errors = tally.errorsDb;
    if (errors.empty())
        return {};
    std::sort(errors.begin(), errors.end());
    LevelErrors found{.biasDb = errors[errors.size() / 2]};
    for (double& error : errors)
        error = std::abs(error);
    std::sort(errors.begin(), errors.end());
    found.medianDb = errors[errors.size() / 2];
    const auto within = std::upper_bound(errors.begin(), errors.end(), 3.0) - errors.begin();
    found.within3Percent = 100 * static_cast<double>(within) / static_cast<double>(errors.size());
    return found;
}

double wilsonUpper(int hits, int of)
{
    constexpr double z = 1.959964;
    const double n = of;
    const double p = hits / n;
    return (p + z * z / (2 * n) + z * std::sqrt(p * (1 - p) / n + z * z / (4 * n * n))) / (1 + z * z / n);
}

Trials::Trials(std::size_t sayingsPerKind, std::size_t streamsPerNoise, std::uint64_t seed)
    : m_sayingsPerKind(sayingsPerKind), m_streamsPerNoise(streamsPerNoise), m_seed(seed), m_random(seed),
      m_room(roomTone(kStreamSeconds, seed, kRate))
{
}

const std::vector<Said>& Trials::said(Kind kind)
{
    std::vector<Said>& all = m_said[kind];
    if (all.empty())
        all = sayings(kind, m_sayingsPerKind, kSaidSeconds, m_seed);
    return all;
}

const std::vector<Samples>& Trials::streamsOf(Noise noise)
{
    std::vector<Samples>& streams = m_noises[noise];
    if (!streams.empty())
        return streams;
    std::vector<Samples> talk;
    if (talks(noise)) {
        for (const Said& said : sayings(Kind::espeak, 24, 6, m_seed + 1))
            talk.push_back(said.samples);
    }
    for (std::size_t i = 0; i < m_streamsPerNoise; ++i)
        streams.push_back(noiseOf(noise, kStreamSeconds, m_seed + i, kRate, talk));
    return streams;
}

Trials::Scene Trials::sceneFor(std::optional<Noise> noise, double noiseDb)
{
    Scene scene;
    scene.roomAt = m_random.below(m_room.size());
    scene.roomGain = gainOf(noise ? kQuietRoomDbfsA : noiseDb);
    if (noise) {
        const auto& streams = streamsOf(*noise);
        scene.noise = &streams[m_random.below(streams.size())];
        scene.at = m_random.below(scene.noise->size());
        scene.noiseGain = gainOf(noiseDb);
    }
    return scene;
}

Samples Trials::cut(Scene& scene, double seconds)
{
    Samples out(samplesOf(seconds, kRate));
    const auto lay = [&out](const Samples& from, std::size_t& at, double gain) {
        const auto factor = static_cast<float>(gain);
        for (float& sample : out) {
            sample += factor * from[at];
            at = at + 1 < from.size() ? at + 1 : 0;
        }
    };
    lay(m_room, scene.roomAt, scene.roomGain);
    if (scene.noise != nullptr)
        lay(*scene.noise, scene.at, scene.noiseGain);
    return out;
}

Tally Trials::silent(std::optional<Noise> noise, int turns)
{
    Tally tally;
    while (tally.turns < turns) {
        Scene scene = sceneFor(noise, noise ? kUsualDbfsA + m_random.between(-6, 12) : kQuietRoomDbfsA);
        Home home(kRate, kUsualDbfsA, kQuietRoomDbfsA);
        home.hear(cut(scene, kWarmSeconds));
        home.turn(TurnKind::listen, cut(scene, kFirstListenSeconds));
        for (int i = 0; i < kTurnsPerHome && tally.turns < turns; ++i) {
            home.turn(TurnKind::listen, cut(scene, kListenSeconds));
            home.turn(TurnKind::ready, cut(scene, kReadySeconds));
            count(tally, home.yours(cut(scene, kYoursSeconds)), false);
        }
    }
    return tally;
}

Tally Trials::speaking(Kind kind, std::optional<Noise> noise, int turns, double snrDb)
{
    Tally tally;
    const auto& store = said(kind);
    while (tally.turns < turns) {
        const double voiceDb = kUsualDbfsA + m_random.between(-3, 9) - (isWhisper(kind) ? kWhisperUnderUsualDb + 3 : 0);
        Scene scene = sceneFor(noise, voiceDb - snrDb);
        const bool even = !noise || isContinuous(*noise);
        Home home(kRate, kUsualDbfsA, static_cast<float>(even ? voiceDb - snrDb : kQuietRoomDbfsA));
        home.hear(cut(scene, kWarmSeconds));
        home.turn(TurnKind::listen, cut(scene, kFirstListenSeconds));
        for (int i = 0; i < kTurnsPerHome && tally.turns < turns; ++i) {
            if (talks(noise)) // else nothing in it can matter, and it takes time
                home.turn(TurnKind::listen, cut(scene, kListenSeconds));
            home.turn(TurnKind::ready, cut(scene, kReadySeconds));
            Samples sound = cut(scene, kYoursSeconds);
            const Said& one = store[m_random.below(store.size())];
            mixInto(sound, one.samples, samplesOf(m_random.between(0.1, 0.5), kRate), gainOf(voiceDb));
            const int trusted = tally.trusted;
            const Outcome outcome = home.yours(sound);
            count(tally, outcome, true);
            if (tally.trusted > trusted)
                tally.errorsDb.push_back(outcome.result.reading.leqOverUsualDb + kUsualDbfsA - voiceDb -
                                         one.levelDbfsA);
        }
    }
    return tally;
}

} // namespace vh::ground
