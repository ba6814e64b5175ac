#include "common/voice/track.h"

#include <algorithm>
#include <cmath>

namespace vh::voice
{

namespace
{

constexpr std::size_t kTailFrames = 12;
// Half widths, in frames, of the moving means that turn steps into movements: 45 ms for the tract, 15 ms for the
// glottis.
constexpr std::size_t kTractHalf = 4;
constexpr std::size_t kGlottisHalf = 1;
constexpr std::size_t kAccentHalf = 12;
constexpr double kWanderSeconds = 0.25;
constexpr double kPulsesFrom = 0.02; // less voicing than this is none
constexpr std::array<double, 2> kHigherWidthHz{200, 250};

template <class Get>
void smooth(std::vector<Control>& track, std::size_t half, Get get)
{
    std::vector<double> sums(track.size() + 1);
    for (std::size_t i = 0; i < track.size(); ++i)
        sums[i + 1] = sums[i] + get(track[i]);
    for (std::size_t i = 0; i < track.size(); ++i) {
        const std::size_t from = i > half ? i - half : 0;
        const std::size_t to = std::min(track.size(), i + half + 1);
        get(track[i]) = (sums[to] - sums[from]) / static_cast<double>(to - from);
    }
}

void lay(const Segment& segment, double share, Tract tract, Control& control)
{
    const PhoneShape& shape = shapeOf(segment.phone);
    control.hz = formantsOf(segment.phone, tract);
    if (segment.to != segment.phone) { // the second half of a diphthong
        const auto to = formantsOf(segment.to, tract);
        const double moved = std::clamp(2.5 * share - 1, 0.0, 1.0);
        for (std::size_t i = 0; i < kFormants; ++i)
            control.hz[i] += moved * (to[i] - control.hz[i]);
    }
    std::copy(shape.widthHz.begin(), shape.widthHz.end(), control.widthHz.begin());
    std::copy(kHigherWidthHz.begin(), kHigherWidthHz.end(), control.widthHz.begin() + 3);
    control.voicing = segment.voicing;
    control.aspiration = segment.aspiration;
    control.frication = segment.frication;
    control.frictionHz = shape.frictionHz;
    control.frictionWidthHz = shape.frictionWidthHz;
}

/// Which sound is on in each frame; breath between a stop and its vowel, and pauses, have the tract of what follows.
std::vector<const Segment*> rollOut(const std::vector<Segment>& segments, std::vector<Control>& track, Tract tract)
{
    std::vector<const Segment*> on;
    double end = 0;
    for (std::size_t s = 0; s < segments.size(); ++s) {
        const Segment& segment = segments[s];
        end += segment.seconds;
        const auto until = static_cast<std::size_t>(std::lround(end / kControlSeconds));
        const std::size_t from = track.size();
        Segment shaped = segment;
        const bool borrows = segment.phone == Phone::release || segment.phone == Phone::h || segment.isPause();
        for (; track.size() < until; on.push_back(&segment)) {
            Control control;
            const double share = static_cast<double>(track.size() - from) / static_cast<double>(until - from);
            lay(shaped, share, tract, control);
            if (borrows && s + 1 < segments.size())
                control.hz = formantsOf(segments[s + 1].phone, tract);
            track.push_back(control);
        }
    }
    return on;
}

/// Phrases, from pause to pause: each falls, with accents, over the range; the last part of each may creak.
void sing(std::vector<Control>& track, const std::vector<const Segment*>& on, const Utterance& utterance,
          const VoiceTraits& traits, Random& random)
{
    const double range = traits.pitchRangeSemitones;
    std::vector<double> accent(on.size());
    const Segment* before = nullptr;
    double height = 0;
    for (std::size_t i = 0; i < on.size(); ++i) {
        if (on[i] != before && on[i]->nucleus)
            height = 0.25 * range * random.even();
        before = on[i];
        accent[i] = height;
    }
    for (std::size_t from = 0; from < on.size();) {
        std::size_t to = from;
        while (to < on.size() && on[to]->isPause() == on[from]->isPause())
            ++to;
        for (std::size_t i = from; i < to; ++i) {
            const double share = static_cast<double>(i - from) / static_cast<double>(to - from);
            const double whole = static_cast<double>(i) / static_cast<double>(on.size());
            double semitones = 0;
            if (utterance.melody == Melody::speech)
                semitones = range * (0.35 - 0.7 * share) + accent[i];
            else if (utterance.melody != Melody::level)
                semitones = (utterance.melody == Melody::rising ? 12 : -12) * (whole - 0.5);
            track[i].pitchHz = semitones;
            track[i].creaky = share > 1 - traits.creak;
        }
        from = to;
    }
    if (utterance.melody == Melody::speech)
        smooth(track, kAccentHalf, [](Control& each) -> double& { return each.pitchHz; });
    for (Control& each : track)
        each.pitchHz = traits.pitchHz * std::exp2(each.pitchHz / 12);
}

/// How the level goes over the utterance, in dB around its middle.
double contourDb(const Utterance& utterance, double share)
{
    switch (utterance.contour) {
    case Contour::fading:
        return utterance.contourDb * (0.5 - share);
    case Contour::rushing:
        return utterance.contourDb / 2 * (0.5 - share);
    default:
        return 0;
    }
}

void unsettle(std::vector<Control>& track, const Utterance& utterance, const VoiceTraits& traits, Random& random)
{
    const double keep = std::exp(-kControlSeconds / kWanderSeconds);
    const double fresh = std::sqrt(1 - keep * keep);
    double pitchWander = random.normal();
    double levelWander = random.normal();
    const double phase = 2 * std::numbers::pi * random.unit();
    for (std::size_t i = 0; i < track.size(); ++i) {
        const double seconds = static_cast<double>(i) * kControlSeconds;
        const double tremor = std::sin(2 * std::numbers::pi * traits.tremorHz * seconds + phase);
        pitchWander = keep * pitchWander + fresh * random.normal();
        levelWander = keep * levelWander + fresh * random.normal();
        track[i].pitchHz *= 1 + traits.tremorPitchPercent / 100 * tremor + traits.wanderPercent / 100 * pitchWander;
        const double db = contourDb(utterance, static_cast<double>(i) / static_cast<double>(track.size())) +
                          traits.tremorLevelDb * tremor + traits.wanderPercent / 2 * levelWander;
        track[i].gain = std::pow(10, db / 20);
    }
}

} // namespace

std::vector<Control> trackOf(const std::vector<Segment>& segments, const Utterance& utterance,
                             const VoiceTraits& traits, Random random)
{
    std::vector<Control> track;
    if (segments.empty())
        return track;
    const std::vector<const Segment*> on = rollOut(segments, track, traits.tract);
    Control last = track.back();
    last.voicing = last.aspiration = last.frication = 0;
    sing(track, on, utterance, traits, random);
    last.pitchHz = track.back().pitchHz;
    track.insert(track.end(), kTailFrames, last);
    for (std::size_t i = 0; i < kFormants; ++i) {
        smooth(track, kTractHalf, [i](Control& each) -> double& { return each.hz[i]; });
        smooth(track, kTractHalf, [i](Control& each) -> double& { return each.widthHz[i]; });
    }
    smooth(track, kGlottisHalf, [](Control& each) -> double& { return each.voicing; });
    smooth(track, kGlottisHalf, [](Control& each) -> double& { return each.aspiration; });
    for (Control& each : track)
        if (each.voicing < kPulsesFrom)
            each.voicing = 0;
    unsettle(track, utterance, traits, random);
    return track;
}

} // namespace vh::voice
