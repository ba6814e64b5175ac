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
      m_weighting(sampleRateHz), m_fastA(TimeWeighting::kFastSeconds, sampleRateHz),
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

Blank Meter::blankOf(bool voiced) const
{
    if (m_deadLine.noSignal())
        return Blank::noSignal;
    if (m_clipping.within(kClippingBlankFrames))
        return Blank::clipping;
    if (voiced && m_voicedMeanSquare < m_activity.floorA().meanSquare() * kClearOfRoom)
        return Blank::roomTooNoisy;
    return Blank::none;
}

VoiceFrame Meter::completeFrame()
{
    m_filled = 0;
    const Weighting::Sample mean = weighFrame();
    m_speechLevel.push(m_frame);
    m_clipping.push(m_frame);
    m_deadLine.push(m_frame);
    const bool still = m_deadLine.still();
    const Periodicity::Reading periodicity = m_periodicity.push(m_c);
    const bool learns = !still && periodicity.ready; // what is not understood yet could be a voice
    const double confidence = m_activity.push({mean.a, mean.c, learns, periodicity,
                                               m_shape.push(m_frame, m_activity.voiceLike(), learns)});
    const bool voiced = confidence >= VoiceActivity::kVoicedFrom;
    if (!voiced)
        m_voicedMeanSquare = 0;
    else if (m_voicedMeanSquare <= 0)
        m_voicedMeanSquare = mean.a;
    else
        m_voicedMeanSquare += kTakeVoiced * (mean.a - m_voicedMeanSquare);

    VoiceFrame frame;
    frame.meanSquareA = static_cast<float>(mean.a);
    frame.fastDbfsA = static_cast<float>(m_fastA.db());
    frame.noiseFloorDbfsA = static_cast<float>(dbOfMeanSquare(m_activity.floorA().meanSquare()));
    frame.voiced = voiced;
    frame.confidence = static_cast<float>(confidence);
    frame.blank = blankOf(voiced);

    m_leqA.add(mean.a);
    m_leqC.add(mean.c);
    if (voiced && frame.blank == Blank::none)
        m_voicedLeqA.add(mean.a);
    return frame;
}

} // namespace vh
