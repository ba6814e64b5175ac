#include "tests/ground/curve.h"

#include "common/signal/meter.h"

#include <algorithm>
#include <cmath>

namespace vh::ground
{

const std::vector<Condition> kRecordedConditions{
    {}, {Noise::fan, 20}, {Noise::hum, 20}, {Noise::fan, 10}, {Noise::hum, 10}, {Noise::fan, 5}, {Noise::hum, 5}};

namespace
{

constexpr double kSpeechDbfsA = -35;

double share(std::int64_t part, std::int64_t of)
{
    return of > 0 ? static_cast<double>(part) / static_cast<double>(of) : 0;
}

/// The recording at kSpeechDbfsA, one second late; before it its own room, and the noise over all.
Samples staged(const Recording& recording, const Condition& condition, std::uint64_t seed,
               std::span<const Samples> talk)
{
    const Samples speech = atActiveLevelA(recording.samples, kSpeechDbfsA, kVoiceRateHz);
    std::vector<double> frames = framesA(speech, kVoiceRateHz);
    std::sort(frames.begin(), frames.end());
    const double seconds = 1 + static_cast<double>(speech.size()) / kVoiceRateHz;
    Samples all(samplesOf(seconds, kVoiceRateHz));
    mixInto(std::span(all).first(kVoiceRateHz), roomTone(1, seed, kVoiceRateHz), 0,
            std::sqrt(frames[frames.size() / 10]));
    mixInto(all, speech, kVoiceRateHz);
    if (condition.noise) {
        const double gain = std::pow(10.0, (kSpeechDbfsA - condition.snrDb) / 20);
        mixInto(all, noiseOf(*condition.noise, seconds, seed, kVoiceRateHz, talk), 0, gain);
    }
    return all;
}

} // namespace

void Score::see(bool labelled, bool said)
{
    ++(labelled ? (said ? hits : misses) : (said ? falseAlarms : rightSilences));
}

double Score::precision() const
{
    return share(hits, hits + falseAlarms);
}

double Score::recall() const
{
    return share(hits, hits + misses);
}

double Score::f1() const
{
    return share(2 * hits, 2 * hits + falseAlarms + misses);
}

double Score::missPercent() const
{
    return 100 * share(misses, hits + misses);
}

double Score::falseAlarmPercent() const
{
    return 100 * share(falseAlarms, falseAlarms + rightSilences);
}

Comparison compared(std::span<const Recording> speech, std::span<const Condition> conditions, std::uint64_t seed,
                    std::span<const Samples> talk)
{
    constexpr std::size_t kLeadFrames = 100;
    Comparison found;
    for (const Recording& recording : speech) {
        const std::vector<bool> labels = speechFrames(recording.samples);
        for (const Condition& condition : conditions) {
            const Samples sound = staged(recording, condition, seed++, talk);
            std::vector<float> confidence;
            Meter meter(kVoiceRateHz);
            const auto keep = [&](const VoiceFrame& frame) { confidence.push_back(frame.confidence); };
            meter.push(sound, keep);
            meter.push(Samples(Meter::kDelayFrames * kVoiceRateHz / 100), keep); // the last frames come out
            for (std::size_t i = 0; i < labels.size() && i + kLeadFrames < confidence.size(); ++i) {
                for (std::size_t k = 0; k < kThresholds; ++k)
                    found.ours[k].see(labels[i], confidence[i + kLeadFrames] >= thresholdAt(k) - 1e-6);
            }
            for (int setting = 0; setting < kReferenceSettings; ++setting) {
                const std::vector<bool> said = referenceVoice(sound, setting);
                for (std::size_t i = 0; i < labels.size() && i + kLeadFrames < said.size(); ++i)
                    found.reference[static_cast<std::size_t>(setting)].see(labels[i], said[i + kLeadFrames]);
            }
        }
    }
    return found;
}

} // namespace vh::ground
