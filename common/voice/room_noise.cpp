#include "common/voice/random.h"
#include "common/voice/room.h"
#include "common/voice/weighed.h"

#include <cmath>

namespace vh::voice
{

namespace
{

constexpr int kTalkers = 6;

/// One-pole low-passes spread over the octaves, each half as strong as the one below: falls 3 dB an octave within about
/// 1 dB. Corner frequencies two octaves apart, a choice of ours.
class Pink
{
public:
    double push(double white)
    {
        double sum = 0;
        for (std::size_t i = 0; i < kPoles; ++i) {
            m_state[i] += m_take[i] * (white - m_state[i]);
            sum += m_state[i] * m_weight[i];
        }
        return sum;
    }
    Pink()
    {
        double hz = 20;
        for (std::size_t i = 0; i < kPoles; ++i, hz *= 4) {
            m_take[i] = 1 - std::exp(-2 * std::numbers::pi * hz / kRateHz);
            m_weight[i] = std::pow(2.0, -static_cast<double>(i));
        }
    }

private:
    static constexpr std::size_t kPoles = 6;
    std::array<double, kPoles> m_state{};
    std::array<double, kPoles> m_take{};
    std::array<double, kPoles> m_weight{};
};

std::vector<float> hum(std::size_t count, Random& random)
{
    std::vector<float> samples(count);
    for (int harmonic = 1; harmonic <= 8; ++harmonic) {
        const double phase = 2 * std::numbers::pi * random.unit();
        const double amplitude = harmonic % 2 == 0 ? 1.0 / harmonic : 0.4 / harmonic;
        for (std::size_t i = 0; i < count; ++i)
            samples[i] += static_cast<float>(
                amplitude * std::sin(2 * std::numbers::pi * 50 * harmonic * static_cast<double>(i) / kRateHz + phase));
    }
    return samples;
}

std::vector<float> babble(std::size_t count, Random& random)
{
    static constexpr std::array<const char*, 3> kTalk{
        "The bus was late again, and nobody minded. We sat and looked at the river.",
        "She wanted a blue one, but they had only green. It will be done by Friday.",
        "Turn left behind the mill, then over the bridge, and there is the garden."};
    Sound all;
    all.samples.resize(count);
    for (int talker = 0; talker < kTalkers; ++talker) {
        VoiceTraits traits;
        traits.tract = talker % 2 == 0 ? Tract::man : Tract::woman;
        traits.pitchHz = (talker % 2 == 0 ? 105 : 190) * (0.9 + 0.2 * random.unit());
        traits.syllablesPerSecond = 3.5 + random.unit();
        Utterance talk;
        for (std::size_t at = random.next() % kRateHz; at < count;) {
            talk.text = kTalk[random.next() % kTalk.size()];
            const Sound said = render(talk, traits, random.next());
            for (std::size_t i = 0; i < said.samples.size() && at + i < count; ++i)
                all.samples[at + i] += said.samples[i];
            at += said.samples.size() + random.next() % (kRateHz / 2);
        }
    }
    return all.samples;
}

std::vector<float> made(NoiseKind kind, std::size_t count, Random& random)
{
    if (kind == NoiseKind::hum)
        return hum(count, random);
    if (kind == NoiseKind::babble)
        return babble(count, random);
    std::vector<float> samples(count);
    Pink pink;
    double low = 0;
    const double take = 1 - std::exp(-2 * std::numbers::pi * 100 / kRateHz);
    for (float& sample : samples) {
        const double white = random.even();
        low += take * (white - low);
        sample = static_cast<float>(kind == NoiseKind::white ? white : kind == NoiseKind::fan ? low : pink.push(white));
    }
    return samples;
}

} // namespace

std::vector<float> noise(NoiseKind kind, std::size_t samples, double dbfsA, std::uint64_t seed)
{
    if (kind == NoiseKind::none || samples == 0)
        return std::vector<float>(samples);
    Random random(seed);
    std::vector<float> made = vh::voice::made(kind, samples, random);
    const auto gain = static_cast<float>(std::pow(10, (dbfsA - weighedDb(made)) / 20));
    for (float& sample : made)
        sample *= gain;
    return made;
}

} // namespace vh::voice
