// Prints the tables of docs/ears.md: the operating curve of voice activity (misses against false alarms as the threshold
// of confidence moves) beside the settings of the outside detector, on own voices, espeak-ng's and recorded speech.
#include "tests/ground/curve.h"
#include "tests/ground/people.h"

#include <cstdio>

using namespace vh::ground;

namespace
{

void print(const char* title, const Comparison& found)
{
    std::printf("\n### %s\n\n| | misses %% | false alarms %% | F1 |\n|---|---|---|---|\n", title);
    for (std::size_t k = 1; k < kThresholds; k += 2) {
        const Score& score = found.ours[k];
        std::printf("| ours, from %.1f%s | %.1f | %.1f | %.3f |\n", thresholdAt(k),
                    k == kVoicedThreshold ? " (in use)" : "", score.missPercent(), score.falseAlarmPercent(), score.f1());
    }
    for (int setting = 0; setting < kReferenceSettings; ++setting) {
        const Score& score = found.reference[static_cast<std::size_t>(setting)];
        std::printf("| outside detector, setting %d | %.1f | %.1f | %.3f |\n", setting, score.missPercent(),
                    score.falseAlarmPercent(), score.f1());
    }
}

std::vector<Recording> utterances(std::span<const Kind> kinds, std::size_t count)
{
    std::vector<Recording> all;
    for (const Kind kind : kinds) {
        for (Said& said : sayings(kind, count, 3.6, kFirstUnseenSeed + 3)) {
            Samples framed(samplesOf(0.7, kVoiceRateHz)); // a pause before and after, with no sound of its own
            framed.insert(framed.end(), said.samples.begin(), said.samples.end());
            framed.resize(framed.size() + samplesOf(0.7, kVoiceRateHz));
            all.push_back({nameOf(kind), std::move(framed)});
        }
    }
    return all;
}

} // namespace

int main()
{
    constexpr std::size_t kEach = 12;
    const std::vector<Condition> steady{{Noise::fan, 20}, {Noise::fan, 10}, {Noise::hum, 10}};
    const std::vector<Condition> sudden{{Noise::breath, 10}, {Noise::cough, 10}, {Noise::door, 10}, {Noise::dog, 10},
                                        {Noise::whistle, 10}};
    const std::vector<Kind> own{Kind::modal, Kind::breathy, Kind::hnr5, Kind::hnr0, Kind::unsteady};
    const std::vector<Kind> whisper{Kind::whisper};
    const std::vector<Kind> espeak{Kind::espeak};
    const std::vector<Kind> espeakWhisper{Kind::espeakWhisper};
    const auto both = [&](const char* name, const std::vector<Recording>& speech) {
        char title[160];
        std::snprintf(title, sizeof title, "%s, steady noises (fan 20 and 10 dB, hum 10 dB under the voice)", name);
        print(title, compared(speech, steady, kFirstUnseenSeed + 11));
        std::snprintf(title, sizeof title, "%s, sudden noises 10 dB under the voice (breath, cough, door, dog, whistle)",
                      name);
        print(title, compared(speech, sudden, kFirstUnseenSeed + 12));
    };
    both("Own voices", utterances(own, kEach));
    both("Own whisper", utterances(whisper, 2 * kEach));
    both("espeak-ng", utterances(espeak, 2 * kEach));
    both("espeak-ng, whispered", utterances(espeakWhisper, 2 * kEach));
    const auto speech = recordings();
    print("Recorded speech as it is", compared(speech, std::vector<Condition>{{}}, kFirstUnseenSeed + 13));
    both("Recorded speech", speech);
    print("Recorded speech, all conditions of the figure", compared(speech, kRecordedConditions, kFirstUnseenSeed + 7));
}
