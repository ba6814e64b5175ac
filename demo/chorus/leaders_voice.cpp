#include "demo/chorus/leaders_voice.h"

#include "demo/chorus/person.h"
#include "demo/chorus/seeded.h"

#include <algorithm>

namespace vh::chorus
{

namespace
{

constexpr double kLevelDbfsA = -30; ///< a headset, an even and easy voice
constexpr double kStartsAfterSeconds = 0.25;
constexpr double kShareOfTurn = 0.9;

std::size_t samplesOf(Millis length)
{
    return static_cast<std::size_t>(length.count()) * (voice::kRateHz / 1000);
}

voice::VoiceTraits leadersTraits()
{
    voice::VoiceTraits traits;
    traits.tract = voice::Tract::woman;
    traits.pitchHz = 190;
    traits.pitchRangeSemitones = 7;
    traits.syllablesPerSecond = 3.4;
    traits.hnrDb = 21;
    return traits;
}

} // namespace

std::vector<float> leadersTurn(const ClassScript& script, const Place& place)
{
    const auto at = turnAt(script, place);
    if (!at || (at->turn->kind != TurnKind::listen && at->turn->kind != TurnKind::withMe) ||
        at->section->kind == SectionKind::pause)
        return {};
    const Millis length = at->turn->planned;
    const std::uint64_t seed = mixed({place.section, place.step, place.round, place.turn});
    const SpokenLine line = lineFor(at->section->kind, *at->step, length, seed);
    voice::Utterance utterance;
    utterance.text = line.text;
    utterance.stretches = line.stretches;
    utterance.melody = line.melody;
    utterance.silentSeconds = kStartsAfterSeconds;
    utterance.seconds = std::max(0.4, kShareOfTurn * static_cast<double>(length.count()) / 1000 - kStartsAfterSeconds);
    utterance.levelDbfsA = kLevelDbfsA + (at->round->moreVoice ? 3 : 0);
    std::vector<float> samples = voice::render(utterance, leadersTraits(), seed).samples;
    samples.resize(std::min(samples.size(), samplesOf(length)));
    return samples;
}

std::vector<float> leadersClass(const ClassScript& script)
{
    std::vector<float> all;
    for (std::optional<Place> place = Place{}; place; place = nextTurn(script, *place)) {
        std::vector<float> turn = leadersTurn(script, *place);
        turn.resize(samplesOf(turnAt(script, *place)->turn->planned));
        all.insert(all.end(), turn.begin(), turn.end());
    }
    return all;
}

} // namespace vh::chorus
