#pragma once
// What the proving ground is made of: sounds as floats (full scale 1.0), chance that is the same on every machine, and
// levels. Everything is deterministic by seed. Thread: one.
#include <cstdint>
#include <span>
#include <vector>

namespace vh::ground
{

using Samples = std::vector<float>;

/// Seeds up to here were listened to and tuned with; figures are measured with those from kFirstUnseenSeed on.
inline constexpr std::uint64_t kFirstUnseenSeed = 1'000'000;

/// SplitMix64 (Steele, Lea & Flood 2014), so that neighbouring seeds have nothing in common.
class Random
{
public:
    explicit Random(std::uint64_t seed) : m_state(seed) {}
    std::uint64_t next();
    /// Evenly from..to.
    double between(double from, double to);
    /// From 0 to count - 1.
    std::size_t below(std::size_t count) { return static_cast<std::size_t>(next() % count); }
    bool chance(double probability) { return between(0, 1) < probability; }
    /// About normal, standard deviation 1: the sum of three even ones.
    double normal() { return between(-1, 1) + between(-1, 1) + between(-1, 1); }

private:
    std::uint64_t m_state;
};

/// Two poles: a resonance, gain about 1 at its peak.
class Resonance
{
public:
    Resonance(double hz, double bandwidthHz, int rateHz);
    double push(double in);

private:
    double m_gain, m_a1, m_a2;
    double m_y1 = 0, m_y2 = 0;
};

std::size_t samplesOf(double seconds, int rateHz);
/// A-weighted level of every 10 ms, as mean squares.
std::vector<double> framesA(std::span<const float> samples, int rateHz);
/// The level of what sounds, dB(A) full scale: energy mean of all frames within 20 dB of the loudest but one in a
/// hundred. This is what "level" and "SNR" mean on the proving ground, for voices and for noises alike.
double activeLevelA(std::span<const float> samples, int rateHz);
/// Scaled to that level.
Samples atActiveLevelA(Samples samples, double db, int rateHz);
/// Adds `what`, times `gain`, from sample `at` on, as far as `to` goes.
void mixInto(std::span<float> to, std::span<const float> what, std::size_t at, double gain = 1);
/// A small loudspeaker in a room some metres away: 200 to 5000 Hz, and a tail of a third of a second.
Samples throughLoudspeaker(std::span<const float> dry, int rateHz);

} // namespace vh::ground
