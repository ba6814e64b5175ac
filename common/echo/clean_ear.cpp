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

VoiceFrame CleanEar::completeFrame()
{
    m_filled = 0;
    const bool plays = std::any_of(m_far.begin(), m_far.end(), [](float s) { return std::abs(s) > kSilent; });
    m_sinceFar = plays ? 0 : std::min(m_sinceFar + 1, 1000);
    m_clipping.push(m_mic);
    const Removal::Heard heard = m_removal.push(m_mic, m_far);
    if (heard.fresh)
        m_judge.restart();
    VoiceFrame frame;
    m_meter.push(m_mic, [&frame](const VoiceFrame& metered) { frame = metered; });
    frame.whose = frame.voiced ? Whose::person : Whose::room;
    if (heard.removed && m_clipping.within(kClippingBlankFrames) && frame.blank == Blank::none)
        frame.blank = Blank::clipping;
    const double room = meanSquareOfDb(frame.noiseFloorDbfsA);
    if (!heard.told) {
        beCareful(frame);
        m_removal.judged({}, room);
        return frame;
    }
    const LeakJudge::Verdict verdict = m_judge.push(
        {frame.meanSquareA, heard.echo, heard.echoAtMost, room, heard.coherence, heard.removed, frame.voiced});
    m_removal.judged(verdict, room);
    apply(verdict, frame);
    return frame;
}

void CleanEar::beCareful(VoiceFrame& frame) const
{
    if (m_sinceFar > kLingersFrames)
        return;
    frame.leakMeanSquareA = frame.meanSquareA; // not told apart yet: it may all be leak
    if (!frame.voiced)
        return;
    frame.whose = Whose::cantTell;
    if (frame.blank == Blank::none)
        frame.blank = Blank::loudspeakerTooLoud;
}

void CleanEar::apply(const LeakJudge::Verdict& verdict, VoiceFrame& frame) const
{
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
