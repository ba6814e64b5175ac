#include "tests/ground/check_room.h"

#include "common/voice/room.h"

#include <algorithm>
#include <cmath>

namespace vh::ground
{

namespace
{

constexpr int kRate = kVoiceRateHz;
constexpr std::size_t kLinesEach = 3;
constexpr std::size_t kStreams = 3;
constexpr double kStreamSeconds = 41.7;
constexpr double kStreetSeconds = 97.3;
constexpr double kTailSeconds = 0.8;

voice::Room roomFrom(Random& random, double nearest, double farthest)
{
    voice::Room room;
    room.sizeMetres = {random.between(2.8, 6.5), random.between(2.4, 5), random.between(2.3, 3)};
    room.rt60Seconds = random.between(0.2, 0.8);
    room.distanceMetres = random.between(nearest, farthest);
    room.noise = voice::NoiseKind::none;
    return room;
}

/// As it arrives, level 0 dB(A). Loudspeaker or mouth: both are points here.
Samples arrived(const voice::RoomModel& room, std::vector<float> dry)
{
    dry.resize(dry.size() + samplesOf(kTailSeconds, voice::kRateHz));
    return atActiveLevelA(atVoiceRate(room.reverberant(dry), voice::kRateHz), 0, kRate);
}

std::vector<float> up(const Samples& at16k)
{
    std::vector<float> out; // by three, between the samples along a line: nothing above 8 kHz is asked of it
    out.reserve(3 * at16k.size());
    for (std::size_t i = 0; i + 1 < at16k.size(); ++i)
        for (int k = 0; k < 3; ++k)
            out.push_back(at16k[i] + (at16k[i + 1] - at16k[i]) * static_cast<float>(k) / 3);
    return out;
}

std::vector<float> line(Kind kind, const voice::VoiceTraits& traits, Random& random)
{
    const std::string words(sentences()[random.below(sentences().size())]);
    if (kind == Kind::espeak || kind == Kind::espeakWhisper) {
        const Samples said = espeakSays(words, espeakVariants()[random.below(espeakVariants().size())],
                                        static_cast<int>(random.between(100, 170)));
        return up(kind == Kind::espeak ? said : whispered(said, random.next()));
    }
    voice::Utterance utterance;
    utterance.text = words;
    if (kind == Kind::unsteady)
        utterance.contour = random.chance(0.5) ? voice::Contour::fading : voice::Contour::rushing;
    return voice::render(utterance, traits, random.next()).samples;
}

std::vector<float> held(Kind kind, Hold hold, voice::VoiceTraits traits, Random& random)
{
    const double seconds = random.between(2.5, 6);
    if (kind == Kind::espeak || kind == Kind::espeakWhisper) {
        const Samples tone = vowel(seconds, random.between(95, 230), random.next());
        return up(kind == Kind::espeak ? tone : whispered(tone, random.next()));
    }
    voice::Utterance utterance;
    utterance.text = random.chance(0.5) ? "ah" : "oh";
    utterance.stretches = {{0, 2}};
    utterance.melody = voice::Melody::level;
    utterance.seconds = seconds;
    if (hold == Hold::fading) {
        utterance.contour = voice::Contour::fading;
        utterance.contourDb = random.between(4, 14);
    }
    if (hold == Hold::trembling) {
        traits.tremorHz = random.between(4, 7);
        traits.tremorLevelDb = random.between(2, 5);
        traits.tremorPitchPercent = random.between(2, 6);
    }
    return voice::render(utterance, traits, random.next()).samples;
}

/// Traffic outside and machines below: rumble under 50 Hz that wanders by some decibels, and now and then swells as
/// something drives by. Effective value 1, unweighted. No recording and no published source: common practice.
Samples traffic(double seconds, std::uint64_t seed)
{
    constexpr std::size_t kStep = kRate / 10;
    constexpr double kTake = 0.02; // 50 Hz
    Random random(seed);
    Samples out(samplesOf(seconds, kRate));
    double once = 0;
    double twice = 0;
    double wanders = 0;
    double swell = 0;
    double gain = 1;
    double sum = 0;
    for (std::size_t i = 0; i < out.size(); ++i) {
        if (i % kStep == 0) {
            wanders += random.normal() / 2 - 0.03 * wanders;
            swell = random.chance(0.015) ? random.between(5, 18) : 0.96 * swell;
            gain = std::pow(10, (wanders + swell) / 20);
        }
        once += kTake * (random.normal() - once);
        twice += kTake * (once - twice);
        out[i] = static_cast<float>(gain * twice);
        sum += static_cast<double>(out[i]) * static_cast<double>(out[i]);
    }
    const auto scale = static_cast<float>(std::sqrt(static_cast<double>(out.size()) / sum));
    for (float& sample : out)
        sample *= scale;
    return out;
}

} // namespace

CheckRoom::CheckRoom(std::size_t readersPerKind, std::size_t rooms, std::uint64_t seed)
    : m_room(roomTone(kStreamSeconds, seed, kRate)), m_street(traffic(kStreetSeconds, seed + 2)),
      m_hiss(samplesOf(kStreamSeconds, kRate))
{
    Random random(seed);
    for (float& sample : m_hiss)
        sample = static_cast<float>(random.normal());
    std::vector<voice::RoomModel> mouths;
    for (std::size_t i = 0; i < rooms; ++i)
        mouths.emplace_back(roomFrom(random, 0.1, 0.9));
    for (const Kind kind : kKinds) {
        for (std::size_t i = 0; i < readersPerKind; ++i) {
            Reader reader;
            reader.kind = kind;
            reader.hold = static_cast<Hold>(random.below(3));
            const voice::RoomModel& room = mouths[random.below(mouths.size())];
            const voice::VoiceTraits traits = traitsOf(kind, random);
            for (std::size_t k = 0; k < kLinesEach; ++k)
                reader.lines.push_back(arrived(room, line(kind, traits, random)));
            reader.vowel = arrived(room, held(kind, reader.hold, traits, random));
            m_readers[kind].push_back(std::move(reader));
        }
    }
    const ProbeSound probe = makeProbeSound();
    m_layout = probe.layout;
    m_playedFrames = framesA(probe.samples, voice::kRateHz);
    for (std::size_t i = 0; i < rooms; ++i) {
        std::vector<float> dry = throughLoudspeaker(probe.samples, voice::kRateHz);
        const float strain = static_cast<float>(random.between(0, 1.5)); // a small loudspeaker bends
        for (float& sample : dry)
            sample = sample / (1 + strain * std::abs(sample));
        m_played.push_back(arrived(voice::RoomModel(roomFrom(random, 0.12, 1)), dry));
    }
    for (const Noise noise : kCheckNoises)
        for (std::size_t i = 0; i < kStreams; ++i)
            m_noises[noise].push_back(noiseOf(noise, kStreamSeconds, seed + i, kRate));
}

const Samples& CheckRoom::noise(Noise noise, Random& random) const
{
    const auto& streams = m_noises.at(noise);
    return streams[random.below(streams.size())];
}

} // namespace vh::ground
