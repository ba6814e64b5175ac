#include "demo/chorus/hearing.h"

#include <algorithm>
#include <numeric>

namespace vh::chorus
{

namespace
{
constexpr std::uint64_t kFrameSamples = 960; ///< 20 ms at 48 kHz
constexpr double kSamplesPerMs = 48;
} // namespace

std::size_t SoundTotals::delayMs(double share) const
{
    const auto all = std::accumulate(delays.begin(), delays.end(), std::uint64_t{0});
    std::uint64_t seen = 0;
    for (std::size_t ms = 0; ms < delays.size(); ++ms)
        if ((seen += delays[ms]) >= static_cast<std::uint64_t>(share * static_cast<double>(all)))
            return ms;
    return kMostDelayMs;
}

void Hearing::Stream::is(std::optional<std::uint32_t> now)
{
    if (now != number)
        quickestMs.reset();
    number = now;
    next.reset(); // a mute, or the sender begins anew: what is missing before the next frame was never sent
}

void Hearing::lineIsNew(const wire::Welcome& welcome)
{
    voiceIs(welcome.voice.value_or(wire::VoiceNow{}));
    speakingIs(welcome.speaking.value_or(wire::Speaking{}));
}

void Hearing::voiceIs(const wire::VoiceNow& voice)
{
    const bool flows = voice.state == wire::VoiceState::carried || voice.state == wire::VoiceState::muted;
    m_leader.is(flows ? std::optional(voice.stream) : std::nullopt);
}

void Hearing::speakingIs(const wire::Speaking& speaking)
{
    m_speaker.is(speaking.on ? std::optional(speaking.stream) : std::nullopt);
}

bool Hearing::frame(std::span<const std::uint8_t> bytes, std::chrono::steady_clock::time_point at, SoundTotals& totals)
{
    const auto sound = wire::decodeSound(bytes);
    if (!sound)
        return false;
    const std::chrono::duration<double, std::milli> arrived = at.time_since_epoch();
    for (Stream* stream : {&m_leader, &m_speaker})
        if (stream->number == sound->head.stream)
            take(*stream, sound->head.firstSample, arrived.count(), totals);
    return true;
}

void Hearing::take(Stream& stream, std::uint64_t firstSample, double arrivedMs, SoundTotals& totals)
{
    ++totals.frames;
    if (stream.next && firstSample > *stream.next) {
        ++totals.lostStretches;
        totals.lostFrames += (firstSample - *stream.next) / kFrameSamples;
    }
    stream.next = firstSample + kFrameSamples;
    const double transit = arrivedMs - static_cast<double>(firstSample) / kSamplesPerMs;
    stream.quickestMs = std::min(stream.quickestMs.value_or(transit), transit);
    const auto late = static_cast<std::size_t>(transit - *stream.quickestMs);
    ++totals.delays[std::min(late, SoundTotals::kMostDelayMs)];
}

} // namespace vh::chorus
