#include "tests/ground/noises.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace vh::ground
{

namespace
{

constexpr double kTurn = 2 * std::numbers::pi;

/// Rises over `attack`, holds, falls with time constant `decay` from `length` on.
double strike(double t, double attack, double length, double decay)
{
    if (t < attack)
        return t / attack;
    return t < length ? 1.0 : std::exp(-(t - length) / decay);
}

/// Air through a mouth or nose: noise through broad resonances, with a flutter.
Samples air(double seconds, Random& random, int rateHz, bool in)
{
    Resonance low(in ? random.between(900, 1600) : random.between(400, 900), random.between(500, 1100), rateHz);
    Resonance high(random.between(1900, 3200), random.between(900, 1800), rateHz);
    const double share = random.between(0.2, 0.8);
    const double flutterHz = random.between(4, 12);
    const double flutter = random.between(0, 0.25);
    const double skew = random.between(0.6, 1.6);
    Samples out(samplesOf(seconds, rateHz));
    for (std::size_t i = 0; i < out.size(); ++i) {
        const double t = static_cast<double>(i) / rateHz;
        const double noise = random.normal();
        const double swell = std::sin(std::numbers::pi * std::pow(t / seconds, skew));
        const double shape = swell * (1 + flutter * std::sin(kTurn * flutterHz * t));
        out[i] = static_cast<float>(shape * (share * low.push(noise) + (1 - share) * high.push(noise) + 0.02 * noise));
    }
    return out;
}

void breathe(Samples& out, Random& random, int rateHz)
{
    const bool afterEffort = random.chance(0.4);
    double at = random.between(0, 1);
    while (samplesOf(at, rateHz) < out.size()) {
        const double in = afterEffort ? random.between(0.4, 0.9) : random.between(0.8, 1.6);
        mixInto(out, air(in, random, rateHz, true), samplesOf(at, rateHz));
        at += in + random.between(0.05, 0.3);
        const double back = afterEffort ? random.between(0.5, 1.0) : random.between(1.0, 2.2);
        mixInto(out, air(back, random, rateHz, false), samplesOf(at, rateHz), random.between(0.3, 1.0));
        at += back + (afterEffort ? random.between(0.05, 0.4) : random.between(0.3, 1.5));
    }
}

Samples oneCough(Random& random, int rateHz)
{
    const double burst = random.between(0.03, 0.06);
    const double rush = random.between(0.1, 0.22);
    const bool voiced = random.chance(0.6);
    const double tone = random.between(0.06, 0.14);
    const double hz = random.between(150, 420);
    Resonance mouth(random.between(450, 900), 250, rateHz);
    Resonance front(random.between(1300, 2400), 500, rateHz);
    Samples out(samplesOf(burst + rush + (voiced ? tone : 0) + 0.15, rateHz));
    double phase = 0;
    for (std::size_t i = 0; i < out.size(); ++i) {
        const double t = static_cast<double>(i) / rateHz;
        double drive = random.normal() * (t < burst ? strike(t, 0.003, burst, 0.01)
                                                    : 0.45 * strike(t - burst, 0.004, 0.5 * rush, 0.5 * rush));
        if (voiced && t > burst + rush) {
            const double since = t - burst - rush;
            phase += hz * (1 + 0.05 * random.normal()) * (1 - since) / rateHz;
            if (phase >= 1) {
                phase -= 1;
                drive += 12 * strike(since, 0.01, 0.3 * tone, 0.3 * tone) * (1 + 0.2 * random.normal());
            }
        }
        out[i] = static_cast<float>(mouth.push(drive) + 0.8 * front.push(drive) + 0.1 * drive);
    }
    return out;
}

Samples oneSlam(Random& random, int rateHz)
{
    Samples out(samplesOf(0.7, rateHz));
    std::array<double, 4> hz{}, decay{}, phase{};
    for (std::size_t k = 0; k < hz.size(); ++k) {
        hz[k] = random.between(55, 320);
        decay[k] = random.between(0.03, 0.11);
        phase[k] = random.between(0, kTurn);
    }
    Resonance wood(random.between(500, 1100), 500, rateHz);
    const double rattleAt = random.between(0.05, 0.2);
    for (std::size_t i = 0; i < out.size(); ++i) {
        const double t = static_cast<double>(i) / rateHz;
        double sum = 0;
        for (std::size_t k = 0; k < hz.size(); ++k)
            sum += std::exp(-t / decay[k]) * std::sin(kTurn * hz[k] * t + phase[k]);
        const double click = random.normal() * (std::exp(-t / 0.012) + 0.15 * std::exp(-t / 0.09));
        const double rattle = t > rattleAt ? random.normal() * 0.4 * std::exp(-(t - rattleAt) / 0.02) : 0;
        out[i] = static_cast<float>(std::min(1.0, t / 0.002) * (sum + 2.5 * wood.push(click + rattle) + 0.3 * click));
    }
    return out;
}

Samples oneBark(Random& random, int rateHz, double hz, double muzzleHz)
{
    const double length = random.between(0.09, 0.22);
    const double bend = random.between(0.05, 0.3);
    const double rough = random.between(0.1, 0.5);
    Resonance muzzle(muzzleHz, 350, rateHz);
    Resonance second(muzzleHz * random.between(1.8, 2.4), 500, rateHz);
    Samples out(samplesOf(length + 0.25, rateHz));
    double phase = 0;
    for (std::size_t i = 0; i < out.size(); ++i) {
        const double t = static_cast<double>(i) / rateHz;
        const double along = std::min(1.0, t / length);
        phase += hz * (1 + bend * (std::sin(std::numbers::pi * along) - 0.5) + 0.01 * random.normal()) / rateHz;
        double drive = rough * random.normal();
        if (phase >= 1) {
            phase -= 1;
            drive += 6 * (1 + 0.1 * random.normal());
        }
        drive *= strike(t, 0.01, 0.7 * length, 0.035);
        out[i] = static_cast<float>(muzzle.push(drive) + 0.6 * second.push(drive) + 0.05 * drive);
    }
    return out;
}

void bouts(Samples& out, Noise noise, Random& random, int rateHz)
{
    const double hz = random.between(350, 1000);
    const double muzzle = random.between(700, 1500);
    double at = random.between(0, 2);
    while (samplesOf(at, rateHz) < out.size()) {
        const int times = noise == Noise::door ? 1 : 1 + static_cast<int>(random.below(noise == Noise::dog ? 6 : 4));
        for (int k = 0; k < times; ++k) {
            const double gain = random.between(0.6, 1);
            const auto from = samplesOf(at, rateHz);
            if (noise == Noise::dog)
                mixInto(out, oneBark(random, rateHz, hz * random.between(0.9, 1.1), muzzle), from, gain);
            else if (noise == Noise::cough)
                mixInto(out, oneCough(random, rateHz), from, gain);
            else
                mixInto(out, oneSlam(random, rateHz), from, gain);
            at += noise == Noise::dog ? random.between(0.28, 0.6) : random.between(0.35, 0.7);
        }
        at += random.between(0.4, 2.5);
    }
}

void whistleOnAndOff(Samples& out, Random& random, int rateHz)
{
    double at = random.between(0, 1);
    while (samplesOf(at, rateHz) < out.size()) {
        const double length = random.between(0.5, 4);
        mixInto(out, oneWhistle(length, random.next(), rateHz), samplesOf(at, rateHz), random.between(0.7, 1));
        at += length + random.between(0.3, 2);
    }
}

void humOn(Samples& out, Random& random, int rateHz)
{
    const double hz = random.chance(0.5) ? 50 : 60;
    const double fallDb = random.between(2.5, 10);
    for (int k = 1; k * hz < 2000; ++k) {
        const double amplitude = std::pow(10.0, -fallDb * (k - 1) / 20 + random.between(-0.2, 0.2));
        const double phase = random.between(0, kTurn);
        for (std::size_t i = 0; i < out.size(); ++i)
            out[i] += static_cast<float>(amplitude * std::sin(kTurn * k * hz * static_cast<double>(i) / rateHz + phase));
    }
}

void fanOn(Samples& out, Random& random, int rateHz)
{
    Resonance body(random.between(150, 600), random.between(200, 600), rateHz);
    Resonance rush(random.between(800, 2500), random.between(1500, 3000), rateHz);
    const double blades = random.between(70, 220);
    const double tone = random.between(0, 0.06);
    const double swayHz = random.between(0.2, 2);
    const double sway = random.between(0, 0.12);
    for (std::size_t i = 0; i < out.size(); ++i) {
        const double t = static_cast<double>(i) / rateHz;
        const double noise = random.normal();
        const double sound = body.push(noise) + 0.5 * rush.push(noise) + 0.03 * noise +
                             tone * (std::sin(kTurn * blades * t) + 0.5 * std::sin(2 * kTurn * blades * t));
        out[i] = static_cast<float>(sound * (1 + sway * std::sin(kTurn * swayHz * t)));
    }
}

void playChords(Samples& out, Random& random, int rateHz, double gain)
{
    double at = 0;
    const double rootHz = random.between(110, 220);
    while (samplesOf(at, rateHz) < out.size()) {
        const double length = random.between(0.25, 0.9);
        const double base = rootHz * std::pow(2.0, static_cast<double>(random.below(8)) / 12);
        Samples chord(samplesOf(length + 0.3, rateHz));
        for (const double ratio : {1.0, 1.25, 1.5, 2.0}) {
            for (int k = 1; k <= 5; ++k) {
                for (std::size_t i = 0; i < chord.size(); ++i) {
                    const double t = static_cast<double>(i) / rateHz;
                    chord[i] += static_cast<float>(gain / k * strike(t, 0.01, 0.02, 0.4 * length) *
                                                   std::sin(kTurn * base * ratio * k * t));
                }
            }
        }
        mixInto(out, chord, samplesOf(at, rateHz));
        at += length;
    }
}

void televisionOn(Samples& out, Random& random, int rateHz, std::span<const Samples> talk, bool music)
{
    Samples dry(out.size());
    double at = random.between(-2, 0); // switched on a while ago
    while (at < 0 || samplesOf(at, rateHz) < dry.size()) {
        const Samples& said = talk[random.below(talk.size())];
        const double seconds = static_cast<double>(said.size()) / rateHz;
        const std::size_t skip = at < 0 ? std::min(said.size(), samplesOf(-at, rateHz)) : 0;
        const double gain = std::pow(10.0, (-20 - activeLevelA(said, rateHz) + random.between(-3, 3)) / 20);
        mixInto(dry, std::span(said).subspan(skip), at < 0 ? 0 : samplesOf(at, rateHz), gain);
        at += seconds + random.between(-0.2, 0.5);
    }
    if (music)
        playChords(dry, random, rateHz, random.between(0.01, 0.05));
    out = throughLoudspeaker(dry, rateHz);
}

} // namespace

const char* nameOf(Noise noise)
{
    constexpr std::array kNames{"breath", "cough", "door", "dog", "whistle", "hum", "fan", "television", "television+music"};
    return kNames[static_cast<std::size_t>(noise)];
}

Samples oneWhistle(double seconds, std::uint64_t seed, int rateHz)
{
    Random random(seed);
    const double hz = random.between(2000, 4000);
    const double wobbleHz = random.between(0.5, 6);
    const double wobble = random.between(0, 0.01);
    const double airy = random.between(0, 0.05);
    Samples out(samplesOf(seconds, rateHz));
    Resonance lips(hz, 200, rateHz);
    double phase = 0;
    for (std::size_t i = 0; i < out.size(); ++i) {
        const double t = static_cast<double>(i) / rateHz;
        phase += hz * (1 + wobble * std::sin(kTurn * wobbleHz * t)) / rateHz;
        phase -= std::floor(phase);
        const double edge = std::min({1.0, t / 0.05, (seconds - t) / 0.05});
        out[i] = static_cast<float>(edge * (std::sin(kTurn * phase) + airy * lips.push(random.normal())));
    }
    return atActiveLevelA(std::move(out), 0, rateHz);
}

Samples noiseOf(Noise noise, double seconds, std::uint64_t seed, int rateHz, std::span<const Samples> talk)
{
    Random random(seed * 16 + static_cast<std::uint64_t>(noise));
    Samples out(samplesOf(seconds, rateHz));
    switch (noise) {
    case Noise::breath: breathe(out, random, rateHz); break;
    case Noise::cough:
    case Noise::door:
    case Noise::dog: bouts(out, noise, random, rateHz); break;
    case Noise::whistle: whistleOnAndOff(out, random, rateHz); break;
    case Noise::hum: humOn(out, random, rateHz); break;
    case Noise::fan: fanOn(out, random, rateHz); break;
    case Noise::television: televisionOn(out, random, rateHz, talk, false); break;
    case Noise::televisionMusic: televisionOn(out, random, rateHz, talk, true); break;
    }
    return atActiveLevelA(std::move(out), 0, rateHz);
}

Samples roomTone(double seconds, std::uint64_t seed, int rateHz)
{
    Random random(seed);
    Samples out(samplesOf(seconds, rateHz));
    double low = 0;
    for (float& sample : out) {
        const double noise = random.normal();
        low += 0.05 * (noise - low);
        sample = static_cast<float>(low + 0.1 * noise);
    }
    return atActiveLevelA(std::move(out), 0, rateHz);
}

} // namespace vh::ground
