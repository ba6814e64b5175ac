#pragma once
// Sound that was made beforehand, sent as somebody who speaks now would send it: coded frames of 20 ms at the pace of
// the real clock, silence where there is nothing to say. Where this process stood still for long, the time is passed
// over, as with a microphone that was gone. Thread: the loop's. Construction throws std::runtime_error when Opus cannot
// start.
#include "common/sound/voice_sender.h"

#include <chrono>
#include <memory>
#include <vector>

namespace vh::chorus
{

using Samples = std::shared_ptr<const std::vector<float>>;

class LiveVoice
{
public:
    using Time = std::chrono::steady_clock::time_point;

    LiveVoice(std::uint32_t stream, Time now) : m_sender(stream), m_began(now) {}

    /// From its beginning, in place of what is being said.
    void say(Samples samples)
    {
        m_samples = std::move(samples);
        m_said = 0;
    }
    [[nodiscard]] bool isSpeaking() const { return m_samples && m_said < m_samples->size(); }
    [[nodiscard]] std::uint32_t stream() const { return m_sender.stream(); }

    /// Calls sink(head, payload) for each frame that is due.
    template <class Sink>
    void beat(Time now, Sink&& sink)
    {
        const std::chrono::duration<double> gone = now - m_began;
        const auto due = static_cast<std::uint64_t>(gone.count() * kSoundRateHz);
        std::uint64_t left = due > m_sender.nextSample() ? due - m_sender.nextSample() : 0;
        if (left > kMostAtOnce) {
            m_sender.passOver(left - kMostAtOnce);
            left = kMostAtOnce;
        }
        std::array<float, kSoundFrame> piece;
        while (left > 0) {
            const std::span<float> part = std::span(piece).first(std::min<std::uint64_t>(left, piece.size()));
            for (float& sample : part)
                sample = isSpeaking() ? (*m_samples)[m_said++] : 0.0F;
            m_sender.push(part, sink);
            left -= part.size();
        }
    }

private:
    static constexpr std::uint64_t kMostAtOnce = kSoundRateHz; ///< a second

    VoiceSender m_sender;
    Time m_began;
    Samples m_samples;
    std::size_t m_said = 0;
};

} // namespace vh::chorus
