#include "common/signal/meter.h"

#include <algorithm>
#include <cassert>

namespace vh
{

namespace
{
constexpr int kFramesPerSecond = 1000 / VoiceFrame::kMilliseconds;
constexpr float kBeyond = 8.0F;
/// A clipped frame spoils its neighbours: at 60 Hz the overdriven peaks of a voice come 17 ms apart, and half a second
/// of voice is judged as one.
constexpr int kClippingBlankFrames = 10;
/// A voice 6 dB above the room reads 1 dB too high (10 lg(1 + 10^-0.6) = 0.97 dB): as much as a reading may be off. The
/// two together then stand 7 dB above the room.
constexpr double kClearOfRoom = 5.01;
constexpr double kTakeVoiced = 0.02; // of each frame: about half a second

float sane(float sample)
{
    if (std::isnan(sample))
        return 0.0F;
    return std::clamp(sample, -kBeyond, kBeyond);
}
} // namespace

Meter::Meter(int sampleRateHz)
    : m_frame(static_cast<std::size_t>(sampleRateHz / kFramesPerSecond)), m_c(m_frame.size()),
      m_weighting(sampleRateHz), m_low(sampleRateHz), m_fastA(TimeWeighting::kFastSeconds, sampleRateHz),
      m_slowA(TimeWeighting::kSlowSeconds, sampleRateHz), m_fastC(TimeWeighting::kFastSeconds, sampleRateHz),
      m_slowC(TimeWeighting::kSlowSeconds, sampleRateHz), m_speechLevel(sampleRateHz), m_periodicity(sampleRateHz),
      m_shape(sampleRateHz)
{
    assert(sampleRateHz >= 8000 && sampleRateHz % kFramesPerSecond == 0);
}

void Meter::restartMeasurement()
{
    m_leqA.restart();
    m_leqC.restart();
    m_voicedLeqA.restart();
    m_speechLevel.restart();
    m_clipping.restart();
}

std::optional<double> Meter::noiseFloorADb() const
{
    const NoiseFloor& floor = m_activity.floorA();
    return floor.known() ? std::optional(dbOfMeanSquare(floor.meanSquare())) : std::nullopt;
}

std::size_t Meter::take(std::span<const float> samples)
{
    const std::size_t count = std::min(samples.size(), m_frame.size() - m_filled);
    std::transform(samples.begin(), samples.begin() + static_cast<std::ptrdiff_t>(count),
                   m_frame.begin() + static_cast<std::ptrdiff_t>(m_filled), sane);
    m_filled += count;
    return count;
}

Weighting::Sample Meter::weighFrame()
{
    double sumA = 0;
    double sumC = 0;
    for (std::size_t i = 0; i < m_frame.size(); ++i) {
        const Weighting::Sample weighted = m_weighting.push(m_frame[i]);
        m_c[i] = weighted.c;
        const double squareA = weighted.a * weighted.a;
        const double squareC = weighted.c * weighted.c;
        sumA += squareA;
        sumC += squareC;
        m_fastA.push(squareA);
        m_slowA.push(squareA);
        m_fastC.push(squareC);
        m_slowC.push(squareC);
    }
    m_weighting.tidy();
    for (TimeWeighting* weighting : {&m_fastA, &m_slowA, &m_fastC, &m_slowC})
        weighting->tidy();
    const auto count = static_cast<double>(m_frame.size());
    return {sumA / count, sumC / count};
}

double Meter::lowMeanSquare()
{
    double sum = 0;
    for (const float sample : m_frame) {
        const double low = m_low.push(static_cast<double>(sample));
        sum += low * low;
    }
    m_low.tidy();
    return sum / static_cast<double>(m_frame.size());
}

/// A voice that is sure now began up to kDelayFrames ago, with the first sound that stood out (a consonant, its own
/// first periods); and what lies between two such moments is a pause within it.
void Meter::lookBack(float confidence)
{
    const auto held = std::span(m_held).first(m_heldCount);
    const auto voiced = [](const Held& each) { return each.frame.confidence >= VoiceActivity::kVoicedFrom; };
    const auto last = std::find_if(held.rbegin(), held.rend(), voiced).base();
    for (auto each = held.begin(); each != held.end(); ++each) {
        const bool within = last != held.begin() && each >= last;
        if (each->mayBegin || within)
            each->frame.confidence = std::max(each->frame.confidence, confidence);
    }
}

void Meter::completeFrame()
{
    m_filled = 0;
    const Weighting::Sample mean = weighFrame();
    m_speechLevel.push(m_frame);
    m_clipping.push(m_frame);
    m_deadLine.push(m_frame);
    const bool still = m_deadLine.still();
    const Periodicity::Reading periodicity = m_periodicity.push(m_c);
    const bool learns = !still && periodicity.ready; // what is not understood yet could be a voice
    const double confidence = m_activity.push(
        {mean.a, mean.c, learns, periodicity, m_shape.push(m_frame, m_activity.voiceLike(), learns && m_learned)});
    m_learned = learns; // whether a frame is like a voice is known to the next one's bands
    m_leqA.add(mean.a);
    m_leqC.add(mean.c);

    VoiceFrame frame;
    frame.meanSquareA = static_cast<float>(mean.a);
    frame.lowMeanSquare = static_cast<float>(lowMeanSquare());
    frame.fastDbfsA = static_cast<float>(m_fastA.db());
    frame.noiseFloorDbfsA = static_cast<float>(dbOfMeanSquare(m_activity.floorA().meanSquare()));
    frame.confidence = static_cast<float>(confidence);
    if (m_deadLine.noSignal())
        frame.blank = Blank::noSignal;
    else if (m_clipping.within(kClippingBlankFrames))
        frame.blank = Blank::clipping;
    lookBack(frame.confidence);
    m_held[m_heldCount++] = {frame, m_activity.mayBegin()};
}

VoiceFrame Meter::newest() const
{
    VoiceFrame frame = m_heldCount > 0 ? m_held[m_heldCount - 1].frame : VoiceFrame{};
    frame.voiced = frame.confidence >= VoiceActivity::kVoicedFrom;
    return frame;
}

VoiceFrame Meter::release()
{
    VoiceFrame frame = m_held.front().frame;
    std::shift_left(m_held.begin(), m_held.end(), 1);
    --m_heldCount;
    const double meanSquare = frame.meanSquareA;
    frame.voiced = frame.confidence >= VoiceActivity::kVoicedFrom;
    if (!frame.voiced)
        m_voicedMeanSquare = 0;
    else if (m_voicedMeanSquare <= 0)
        m_voicedMeanSquare = meanSquare;
    else
        m_voicedMeanSquare += kTakeVoiced * (meanSquare - m_voicedMeanSquare);
    if (frame.voiced && frame.blank == Blank::none &&
        m_voicedMeanSquare < meanSquareOfDb(frame.noiseFloorDbfsA) * kClearOfRoom)
        frame.blank = Blank::roomTooNoisy;
    if (frame.voiced && frame.blank == Blank::none)
        m_voicedLeqA.add(meanSquare);
    return frame;
}

} // namespace vh
