#include "common/echo/clean_ear.h"

#include <cassert>
#include <cmath>

namespace vh
{

namespace
{
constexpr int kFramesPerSecond = 1000 / VoiceFrame::kMilliseconds;
constexpr float kSilent = 1e-4F;
constexpr float kBeyond = 8.0F;
/// The longest way through devices and air (600 ms) and a long reverberation.
constexpr int kLingersFrames = 140;
constexpr int kClippingBlankFrames = 10; // as the meter's
} // namespace

CleanEar::CleanEar(int sampleRateHz)
    : m_mic(static_cast<std::size_t>(sampleRateHz / kFramesPerSecond)), m_far(m_mic.size()), m_removal(sampleRateHz),
      m_meter(sampleRateHz)
{
    assert(sampleRateHz == 16'000 || sampleRateHz == 48'000);
}

void CleanEar::restart()
{
    m_removal.restart();
    m_judge.restart();
}

void CleanEar::usePath(const EchoPath& path)
{
    m_judge.restart();
    m_removal.begin(path.delayMs / 1000.0, path.leakDb);
}

std::optional<EchoPath> CleanEar::path() const
{
    if (m_removal.alignment().state() == Alignment::State::nothing)
        return EchoPath{};
    const auto delay = m_removal.delaySeconds();
    const auto leakDb = m_removal.leakDb();
    if (!delay || !leakDb)
        return std::nullopt;
    return EchoPath{static_cast<float>(*delay * 1000), static_cast<float>(*leakDb)};
}

std::size_t CleanEar::take(std::span<const float> mic, std::span<const float> far)
{
    const std::size_t count = std::min(mic.size(), m_mic.size() - m_filled);
    const auto at = static_cast<std::ptrdiff_t>(m_filled);
    const auto sane = [](float s) { return std::isnan(s) ? 0.0F : std::clamp(s, -kBeyond, kBeyond); }; // as the meter
    std::transform(mic.begin(), mic.begin() + static_cast<std::ptrdiff_t>(count), m_mic.begin() + at, sane);
    const std::size_t played = std::min(count, far.size());
    std::transform(far.begin(), far.begin() + static_cast<std::ptrdiff_t>(played), m_far.begin() + at, sane);
    std::fill_n(m_far.begin() + at + static_cast<std::ptrdiff_t>(played), count - played, 0.0F);
    m_filled += count;
    return count;
}

std::optional<VoiceFrame> CleanEar::completeFrame()
{
    m_filled = 0;
    const bool plays = std::any_of(m_far.begin(), m_far.end(), [](float s) { return std::abs(s) > kSilent; });
    m_sinceFar = plays ? 0 : std::min(m_sinceFar + 1, 1000);
    m_clipping.push(m_mic);
    const Removal::Heard heard = m_removal.push(m_mic, m_far);
    if (heard.fresh)
        m_judge.restart();
    std::optional<VoiceFrame> out;
    m_meter.push(m_mic, [&out](const VoiceFrame& metered) { out = metered; });
    m_marks[m_markCount++] = markOf(heard);
    if (!out)
        return out;
    apply(m_marks.front(), *out);
    std::shift_left(m_marks.begin(), m_marks.end(), 1);
    --m_markCount;
    return out;
}

/// Of the frame that has just come in: the filter must not wait to be told whether it may learn from it.
CleanEar::Mark CleanEar::markOf(const Removal::Heard& heard)
{
    const VoiceFrame now = m_meter.newest();
    Mark mark;
    mark.clipped = heard.removed && m_clipping.within(kClippingBlankFrames);
    const double room = meanSquareOfDb(now.noiseFloorDbfsA);
    if (heard.told)
        mark.verdict = m_judge.push(
            {now.meanSquareA, heard.echo, heard.echoAtMost, room, heard.coherence, heard.removed, now.voiced});
    else
        mark.careful = m_sinceFar <= kLingersFrames;
    m_removal.judged(mark.verdict.value_or(LeakJudge::Verdict{}), room);
    return mark;
}

void CleanEar::apply(const Mark& mark, VoiceFrame& frame)
{
    if (mark.clipped && frame.blank == Blank::none)
        frame.blank = Blank::clipping;
    frame.whose = frame.voiced ? Whose::person : Whose::room;
    if (mark.careful) {
        frame.leakMeanSquareA = frame.meanSquareA; // not told apart yet: it may all be leak
        if (frame.voiced)
            frame.whose = Whose::cantTell;
        if (frame.voiced && frame.blank == Blank::none)
            frame.blank = Blank::loudspeakerTooLoud;
    }
    if (!mark.verdict)
        return;
    const LeakJudge::Verdict& verdict = *mark.verdict;
    // What only a look back found to be the beginning of a voice was nobody's when it came in.
    if (verdict.whose != Whose::room || !frame.voiced)
        frame.whose = verdict.whose;
    frame.leakMeanSquareA = static_cast<float>(verdict.leak);
    if (verdict.whose == Whose::loudspeaker) {
        frame.voiced = false;
        frame.confidence = 0;
    }
    const bool level = frame.blank == Blank::none || frame.blank == Blank::roomTooNoisy;
    if (frame.voiced && !verdict.trusted && level)
        frame.blank = Blank::loudspeakerTooLoud;
}

} // namespace vh
