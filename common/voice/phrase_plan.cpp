#include "common/voice/phrase_plan.h"

#include "common/voice/letters.h"

#include <algorithm>
#include <numeric>
#include <utility>

namespace vh::voice
{

namespace
{

// Choices of ours, unhurried reading aloud.
constexpr double kClosureSeconds = 0.05;
constexpr double kVoiceBar = 0.12; // of b, d, g while closed
constexpr double kLastVowelLonger = 1.5;
constexpr double kLongPauseTimes = 1.8;
constexpr double kHeldLongerSeconds = 0.8; // when no time is given
constexpr double kShortestTimes = 0.5;
constexpr double kLongestTimes = 1.7;
constexpr double kConsonantsFrom = 0.6;
constexpr double kConsonantsTo = 1.4;
constexpr double kRushing = 0.4; // the first syllables this much longer, the last this much shorter

bool overlaps(const Spoken& spoken, const std::vector<Stretch>& stretches)
{
    return std::any_of(stretches.begin(), stretches.end(),
                       [&](const Stretch& each) { return each.begin < spoken.end && spoken.begin < each.end; });
}

Segment segmentOf(const Spoken& spoken)
{
    const PhoneShape& shape = shapeOf(spoken.phone);
    Segment segment{
        spoken.phone,   spoken.to, shape.milliseconds / 1000.0, shape.voicing, shape.aspiration, shape.frication,
        spoken.nucleus, false};
    if (segment.isPause() && spoken.long_)
        segment.seconds *= kLongPauseTimes;
    return segment;
}

void addStop(const Spoken& spoken, bool vowelFollows, std::vector<Segment>& segments)
{
    const bool voiced = spoken.phone == Phone::b || spoken.phone == Phone::d || spoken.phone == Phone::g;
    Segment closure{spoken.phone, spoken.phone, kClosureSeconds};
    closure.voicing = voiced ? kVoiceBar : 0;
    segments.push_back(closure);
    segments.push_back(segmentOf(spoken));
    if (!voiced && vowelFollows)
        segments.push_back(segmentOf({Phone::release, Phone::release}));
}

std::vector<Segment> inARow(const Utterance& utterance)
{
    const std::vector<Spoken> spoken = spokenOf(utterance.text);
    std::vector<Segment> segments;
    for (std::size_t i = 0; i < spoken.size(); ++i) {
        if (isStop(spoken[i].phone)) {
            addStop(spoken[i], i + 1 < spoken.size() && spoken[i + 1].nucleus, segments);
            continue;
        }
        segments.push_back(segmentOf(spoken[i]));
        segments.back().held = spoken[i].nucleus && overlaps(spoken[i], utterance.stretches);
    }
    // The last vowel of a phrase is longer.
    bool atEnd = true;
    for (auto each = segments.rbegin(); each != segments.rend(); ++each) {
        if (each->nucleus && std::exchange(atEnd, false))
            each->seconds *= kLastVowelLonger;
        atEnd = atEnd || each->isPause();
    }
    return segments;
}

template <class Which>
double sumOf(const std::vector<Segment>& segments, Which which)
{
    return std::accumulate(segments.begin(), segments.end(), 0.0,
                           [&](double sum, const Segment& each) { return sum + (which(each) ? each.seconds : 0); });
}

bool isSpeech(const Segment& segment)
{
    return !segment.isPause();
}

/// Speech takes `times` as long: mostly by its vowels.
void scale(std::vector<Segment>& segments, double times)
{
    const double vowels = sumOf(segments, [](const Segment& each) { return each.nucleus; });
    const double others = sumOf(segments, isSpeech) - vowels;
    const double otherTimes = std::clamp(times, kConsonantsFrom, kConsonantsTo);
    const double vowelTimes =
        vowels > 0 ? std::max(0.3, ((vowels + others) * times - others * otherTimes) / vowels) : otherTimes;
    for (Segment& each : segments)
        each.seconds *= each.isPause() ? std::min(times, 1.3) : each.nucleus ? vowelTimes : otherTimes;
}

void rush(std::vector<Segment>& segments)
{
    const double before = sumOf(segments, isSpeech);
    double gone = 0;
    for (Segment& each : segments) {
        const double here = each.seconds;
        if (isSpeech(each))
            each.seconds *= 1 + kRushing * (1 - 2 * (gone + here / 2) / std::max(before, 1e-9));
        gone += isSpeech(each) ? here : 0;
    }
}

} // namespace

std::vector<Segment> segmentsOf(const Utterance& utterance, const VoiceTraits& traits)
{
    std::vector<Segment> segments = inARow(utterance);
    const auto nuclei =
        std::count_if(segments.begin(), segments.end(), [](const Segment& each) { return each.nucleus; });
    const auto held = std::count_if(segments.begin(), segments.end(), [](const Segment& each) { return each.held; });
    if (nuclei == 0)
        return {};
    scale(segments, static_cast<double>(nuclei) / std::max(traits.syllablesPerSecond, 0.5) / sumOf(segments, isSpeech));
    const double natural = sumOf(segments, [](const Segment&) { return true; });
    double longer = held > 0 ? kHeldLongerSeconds * static_cast<double>(held) : 0;
    if (utterance.seconds > 0) {
        if (held == 0 || utterance.seconds < natural)
            scale(segments, std::clamp(utterance.seconds / natural, kShortestTimes, kLongestTimes));
        longer = held > 0 ? std::max(0.0, utterance.seconds - natural) : 0;
    }
    for (Segment& each : segments)
        each.seconds += each.held ? longer / static_cast<double>(held) : 0;
    if (utterance.contour == Contour::rushing)
        rush(segments);
    return segments;
}

} // namespace vh::voice
