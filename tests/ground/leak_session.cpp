#include "tests/ground/leak_session.h"

#include <algorithm>
#include <cmath>

namespace vh::ground
{

namespace
{

constexpr int kRate = kVoiceRateHz;
constexpr double kFarDbfsA = -26;
constexpr double kWarmSeconds = 1;
constexpr double kOpeningSeconds = 10;
constexpr double kListenSeconds = 2.5;
constexpr double kReadySeconds = 0.6;
constexpr double kWithMeSeconds = 3.4;
constexpr double kYoursSeconds = 4.2;
constexpr double kWhisperUnderUsualDb = 15;
constexpr double kStreamSeconds = 37.7;

double gainOf(double db)
{
    return std::pow(10.0, db / 20);
}

bool isWhisper(Kind kind)
{
    return kind == Kind::whisper || kind == Kind::espeakWhisper;
}

/// By a cubic through four samples (Catmull-Rom): what is left out lies 50 dB down below 4 kHz.
float between(const Samples& samples, double at)
{
    const auto i = static_cast<std::ptrdiff_t>(std::floor(at));
    if (i < 1 || i + 2 >= static_cast<std::ptrdiff_t>(samples.size()))
        return 0.0F;
    const auto t = static_cast<float>(at - static_cast<double>(i));
    const float* p = samples.data() + i;
    return p[0] +
           0.5F * t *
               (p[1] - p[-1] + t * (2 * p[-1] - 5 * p[0] + 4 * p[1] - p[2] + t * (3 * (p[0] - p[1]) + p[2] - p[-1])));
}

class Stage
{
public:
    Stage(LeakStore& store, const LeakScene& scene, int cycles, Random& random)
        : m_store(store), m_scene(scene), m_random(random), m_room(random.below(store.rooms().size()))
    {
        const double voiceAbove = scene.kind ? random.between(-3, 9) : 0;
        const bool soft = scene.kind && isWhisper(*scene.kind);
        m_voiceDb = kLeakUsualDbfsA + voiceAbove - (soft ? kWhisperUnderUsualDb + 3 : 0);
        const double seconds = kWarmSeconds + kOpeningSeconds + 1 +
                               cycles * (kListenSeconds + kWithMeSeconds + 2 * (kReadySeconds + kYoursSeconds)) + 1;
        m_length = samplesOf(seconds, kRate);
        m_out.far.resize(m_length);
        m_out.mic.resize(m_length);
        m_wet.resize(m_length);
    }

    LeakSession play(int cycles)
    {
        m_now = samplesOf(kWarmSeconds, kRate);
        opening();
        for (int i = 0; i < cycles; ++i)
            cycle();
        m_out.turns.push_back({TurnKind::listen, m_now, m_now + samplesOf(0.5, kRate), false, false, 0});
        leak();
        background();
        return std::move(m_out);
    }

private:
    /// Lines are shorter than turns, so that none is cut.
    void say(const LeakLine& line, std::size_t at)
    {
        mixInto(m_out.far, line.dry, at, gainOf(kFarDbfsA));
        mixInto(m_wet, line.wet[m_room], at);
    }

    const LeakLine& anyLine() { return m_store.lines()[m_random.below(m_store.lines().size())]; }

    LeakTurn& turn(TurnKind kind, double seconds)
    {
        m_out.turns.push_back({kind, m_now, m_now + samplesOf(seconds, kRate), false, false, 0});
        m_now = m_out.turns.back().end;
        return m_out.turns.back();
    }

    void opening()
    {
        const LeakTurn listen = turn(TurnKind::listen, kOpeningSeconds);
        for (std::size_t at = listen.begin; at + samplesOf(kLeakLineSeconds, kRate) < listen.end;) {
            const LeakLine& line = anyLine();
            say(line, at);
            at += line.dry.size() + samplesOf(m_random.between(0.1, 0.4), kRate);
        }
    }

    void person(LeakTurn& at, const Said& said)
    {
        at.spoke = true;
        at.levelDbfsA = m_voiceDb + said.levelDbfsA;
        mixInto(m_out.mic, said.samples, at.begin + samplesOf(m_random.between(0.1, 0.4), kRate), gainOf(m_voiceDb));
    }

    const Said& anySaid()
    {
        const auto& all = m_store.said(*m_scene.kind, m_room);
        return all[m_random.below(all.size())];
    }

    void cycle()
    {
        const Unison& unison = m_store.unisons()[m_random.below(m_store.unisons().size())];
        const LeakTurn listen = turn(TurnKind::listen, kListenSeconds);
        say(anyLine(), listen.begin);
        turn(TurnKind::ready, kReadySeconds);
        LeakTurn& with = turn(TurnKind::withMe, kWithMeSeconds);
        say(m_scene.unison ? unison.leader : anyLine(), with.begin);
        if (m_scene.kind)
            person(with, m_scene.unison ? unison.person[m_room] : anySaid());
        ownTurn();
        turn(TurnKind::ready, kReadySeconds); // and once more, as rounds with more voice go
        ownTurn();
    }

    void ownTurn()
    {
        LeakTurn& own = turn(TurnKind::yours, kYoursSeconds);
        if (m_scene.kind)
            person(own, anySaid());
        own.spokenInto = m_random.chance(m_scene.spokenInto);
        if (own.spokenInto)
            say(anyLine(), own.begin + samplesOf(m_random.between(0, 1.6), kRate));
    }

    /// The wet line, late and at another rate.
    void leak()
    {
        if (!m_scene.plays)
            return;
        m_out.delaySeconds = m_random.between(0.02, 0.5);
        m_out.drift = m_random.chance(1.0 / 3) ? 0 : m_random.between(-m_scene.mostDrift, m_scene.mostDrift);
        const auto gain = static_cast<float>(gainOf((m_scene.kind ? m_voiceDb : kLeakUsualDbfsA) + m_scene.leakDb));
        const double jumpAt = m_scene.jump ? m_random.between(0.3, 0.7) * static_cast<double>(m_length) : 1e18;
        const double jumped = m_random.between(-1, 1) > 0 ? 0.09 : -0.012;
        const double copyDelay = m_random.between(0.05, 0.4);
        double delay = m_out.delaySeconds * kRate;
        for (std::size_t i = 0; i < m_length; ++i) {
            delay += m_out.drift;
            const double late = delay + (static_cast<double>(i) > jumpAt ? jumped * kRate : 0);
            m_out.mic[i] += gain * between(m_wet, static_cast<double>(i) - late);
            if (m_scene.secondCopy)
                m_out.mic[i] += 0.7F * gain * between(m_wet, static_cast<double>(i) - late - copyDelay * kRate);
        }
    }

    void background()
    {
        const Samples room = roomTone(kStreamSeconds, m_random.next(), kRate);
        const auto lay = [this](const Samples& from, double db) {
            std::size_t at = m_random.below(from.size());
            const auto gain = static_cast<float>(gainOf(db));
            for (float& sample : m_out.mic) {
                sample += gain * from[at];
                at = at + 1 < from.size() ? at + 1 : 0;
            }
        };
        lay(room, kLeakRoomDbfsA);
        if (m_scene.noise) {
            const double over = m_scene.kind ? m_voiceDb : kLeakUsualDbfsA;
            lay(noiseOf(*m_scene.noise, kStreamSeconds, m_random.next(), kRate, m_store.talk()),
                over + m_scene.noiseDb);
        }
    }

    LeakStore& m_store;
    const LeakScene& m_scene;
    Random& m_random;
    std::size_t m_room;
    double m_voiceDb = 0;
    std::size_t m_length = 0;
    std::size_t m_now = 0;
    Samples m_wet;
    LeakSession m_out;
};

} // namespace

LeakSession leakSession(LeakStore& store, const LeakScene& scene, int cycles, Random& random)
{
    return Stage(store, scene, cycles, random).play(cycles);
}

} // namespace vh::ground
