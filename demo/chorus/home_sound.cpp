#include "demo/chorus/home_sound.h"

#include "demo/chorus/manner.h"
#include "demo/chorus/seeded.h"

#include <algorithm>
#include <cmath>

namespace vh::chorus
{

namespace
{

enum Draw : std::uint64_t { kCheck = 200, kStarts, kTurnLevel, kOther, kNoise, kAround };

constexpr std::size_t kNoiseSamples = 5 * voice::kRateHz;
constexpr Millis kCheckRoom{3500};
constexpr Millis kAfterCheck{12'000};
constexpr double kBreathSeconds = 0.5;
/// Who speaks along comes in a little later and sits a little farther away.
constexpr double kOtherLaterSeconds = 0.15;
constexpr double kOtherUnderDb = 3;

std::size_t samplesOf(Millis length)
{
    return static_cast<std::size_t>(length.count()) * (voice::kRateHz / 1000);
}

double secondsOf(Millis length)
{
    return static_cast<double>(length.count()) / 1000;
}

voice::RoomModel withoutNoise(voice::Room room)
{
    room.noise = voice::NoiseKind::none;
    return voice::RoomModel(room);
}

} // namespace

HomeSound::HomeSound(Character character, std::uint64_t seed)
    : m_character(character), m_person(personOf(character, seed)), m_room(withoutNoise(m_person.room)),
      m_noise(voice::noise(m_person.room.noise, kNoiseSamples, m_person.room.noiseDbfsA, mixed({seed, kNoise})))
{
    if (m_person.laterNoise != voice::NoiseKind::none)
        m_laterNoise =
            voice::noise(m_person.laterNoise, kNoiseSamples, m_person.laterNoiseDbfsA, mixed({seed, kNoise, 1}));
}

voice::Sound HomeSound::spoken(const voice::Utterance& utterance, std::uint64_t seed) const
{
    voice::Sound sound = voice::render(utterance, m_person.traits, seed);
    if (!m_person.other)
        return sound;
    voice::Utterance along = utterance;
    along.levelDbfsA -= kOtherUnderDb;
    const voice::Sound other = voice::render(along, *m_person.other, mixed({seed, kOther}));
    return voice::mixed(std::move(sound), other, static_cast<std::size_t>(kOtherLaterSeconds * voice::kRateHz));
}

std::vector<float> HomeSound::heard(voice::Sound sound, Millis length, bool later, std::uint64_t seed) const
{
    const bool silent = sound.labels.empty();
    sound.samples.resize(samplesOf(length));
    std::vector<float> samples = silent ? std::move(sound.samples) : m_room.reverberant(sound.samples);
    const auto lay = [&](const std::vector<float>& noise, std::uint64_t draw) {
        std::size_t from = noise.empty() ? 0 : mixed({seed, kAround, draw}) % noise.size();
        for (std::size_t i = 0; i < samples.size() && !noise.empty();
             ++i, from = from + 1 == noise.size() ? 0 : from + 1)
            samples[i] += noise[from];
    };
    lay(m_noise, 0);
    if (later)
        lay(m_laterNoise, 1);
    return samples;
}

std::vector<float> HomeSound::turn(const TurnToSay& turn) const
{
    const Millis whole = kLeadIn + turn.moment.length;
    if (saysNothing(m_character, turn.moment.section))
        return heard({}, whole, true, turn.seed);
    const double starts = 0.2 + 0.25 * unit({turn.seed, kStarts});
    voice::Utterance utterance;
    utterance.text = turn.line.text;
    utterance.stretches = turn.line.stretches;
    utterance.melody = turn.line.melody;
    utterance.seconds = std::max(0.5, 0.88 * (secondsOf(turn.moment.length) - starts));
    utterance.levelDbfsA =
        m_person.usualDbfsA + meantOverUsualDb(m_character, turn.moment) + 0.6 * (unit({turn.seed, kTurnLevel}) - 0.5);
    utterance.contour = m_character == Character::fading ? voice::Contour::fading : voice::Contour::steady;
    utterance.contourDb = 3;
    utterance.silentSeconds = secondsOf(kLeadIn) + starts;
    utterance.breathSeconds = kBreathSeconds;
    return heard(spoken(utterance, turn.seed), whole, true, turn.seed);
}

std::vector<float> HomeSound::micCheck() const
{
    const SpokenLine line = checkLine();
    voice::Utterance utterance;
    utterance.text = line.text;
    utterance.levelDbfsA = m_person.usualDbfsA;
    utterance.silentSeconds = secondsOf(kCheckRoom);
    const voice::Sound sound = spoken(utterance, kCheck);
    const Millis length{static_cast<Millis::rep>(sound.samples.size() / (voice::kRateHz / 1000) + 300)};
    return heard(sound, length, false, kCheck);
}

std::vector<float> HomeSound::afterCheck() const
{
    return m_laterNoise.empty() ? std::vector<float>{} : heard({}, kAfterCheck, true, kAround);
}

} // namespace vh::chorus
