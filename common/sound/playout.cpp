#include "common/sound/playout.h"

#include <algorithm>
#include <cmath>

namespace vh
{

namespace
{
constexpr std::int64_t kFrame = kSoundFrame;
constexpr int kConcealed = 5; ///< frames; the decoder itself has faded by then
constexpr int kUntilIdle = 10;
constexpr std::int64_t kPrimed = 4 * kFrame; ///< decoded unheard before a jump's goal: 80 ms, RFC 7845 section 4.6
constexpr double kAhead = 48'000;            ///< further ahead than this a count is of another time
constexpr double kOver = 960;                ///< over the limit by so much before sound is dropped
constexpr double kUneven = 960;              ///< quiet frames are resized beyond so much
constexpr float kQuiet = 0.003F;             ///< 25 dB under the louder frames, as mean square
constexpr float kSilent = 3e-4F;             ///< peak of what a frame of pure silence decodes to
constexpr double kMostDrift = 600e-6;
constexpr double kMostSpeed = 2'500e-6; ///< four hundredths of a semitone
constexpr double kSpeedStep = 250e-6;   ///< a second
} // namespace

void Playout::put(const SoundPacket& packet)
{
    if (!m_started || packet.head.stream != m_stream)
        begin(packet);
    const auto at = static_cast<std::int64_t>(packet.head.firstSample - m_base);
    if (at < m_at) {
        ++m_counts.lateFrames;
        m_watch.saw(static_cast<double>(m_rendered) - static_cast<double>(at));
        return;
    }
    if (static_cast<double>(at) > due() + kAhead) {
        begin(packet); // the loudspeaker stood still, or the count leapt
        put(packet);
        return;
    }
    m_watch.saw(static_cast<double>(m_rendered) - static_cast<double>(at));
    m_store.put(at, packet);
    m_idle = false;
}

void Playout::begin(const SoundPacket& packet)
{
    m_store.clear();
    m_watch.restart();
    m_decoder.restart();
    m_map.restart();
    m_started = true;
    m_stream = packet.head.stream;
    m_base = packet.head.firstSample;
    m_at = 0;
    m_waited = m_bridge.lag() - LineWatch::kStart;
    m_emptyPieces = 0;
    m_wasSilent = true;
    m_fadeIn = true;
}

void Playout::render(std::span<float> out)
{
    if (m_idle) {
        std::ranges::fill(out, 0.0F);
        m_waited += static_cast<double>(out.size()) * (1 + m_bridge.speed());
    } else {
        m_bridge.pull(out, [this] { return nextPiece(); });
    }
    m_rendered += out.size();
    for (; m_rendered - m_secondAt >= kSoundRateHz; m_secondAt += kSoundRateHz)
        everySecond();
}

std::uint64_t Playout::heardUpTo()
{
    return m_base + static_cast<std::uint64_t>(m_map.positionAt(m_bridge.given()));
}

double Playout::held() const
{
    return delayOf(due()) - m_watch.fastest();
}

void Playout::everySecond()
{
    m_watch.second();
    double speed = m_drift;
    if (m_watch.knows() && !m_idle && m_emptyPieces == 0) {
        // A proportional and an integral part, time constant 15 s, critically damped.
        const double error = (held() - m_watch.allowance()) / kSoundRateHz;
        if (std::abs(error) < 0.05)
            m_drift = std::clamp(m_drift + error / 900, -kMostDrift, kMostDrift);
        speed = std::clamp(m_drift + error / 15, -kMostSpeed, kMostSpeed);
    }
    m_bridge.setSpeed(std::clamp(speed, m_bridge.speed() - kSpeedStep, m_bridge.speed() + kSpeedStep));
}

Playout::Piece Playout::nextPiece()
{
    while (!m_store.empty() && m_store.front().at < m_at) {
        ++m_counts.lateFrames;
        m_store.pop();
    }
    if (m_store.empty())
        return waitingPiece(kSoundFrame);
    if (delayOf(std::max(due(), static_cast<double>(m_store.front().at))) >
        m_watch.fastest() + LineWatch::kMost + kOver)
        catchUp();
    if (m_store.empty())
        return waitingPiece(kSoundFrame);
    const auto next = m_store.front();
    const double ahead = static_cast<double>(next.at) - due();
    return ahead >= 1 ? gapPiece(next, ahead) : framePiece(next);
}

Playout::Piece Playout::putOut(std::size_t length, std::int64_t from, std::int64_t to)
{
    m_map.add(m_bridge.taken(), length, from, to);
    return Piece(m_frame).first(length);
}

/// Nothing to play: what was heard last goes on and fades, then silence.
Playout::Piece Playout::waitingPiece(std::size_t length)
{
    if (m_waited >= 0 && m_emptyPieces < kConcealed) {
        m_decoder.conceal(m_frame);
        if (!m_wasSilent)
            m_counts.concealedSamples += length;
    } else {
        m_frame.fill(0);
    }
    ++m_emptyPieces;
    m_waited += static_cast<double>(length);
    m_idle = m_emptyPieces > kUntilIdle && m_store.empty();
    return putOut(length, m_at, m_at);
}

/// The next frame is not for now: frames are missing before it, or it is the first after a mute, or of all.
Playout::Piece Playout::gapPiece(const PacketStore::Entry& next, double ahead)
{
    const auto length = static_cast<std::size_t>(std::min<double>(std::floor(ahead), kSoundFrame));
    if (m_waited < 0 || m_wasSilent || next.at - m_at > kConcealed * kFrame)
        return waitingPiece(length);
    if (ahead < kFrame + 1)
        m_decoder.recover(next.packet->payload(), m_frame);
    else
        m_decoder.conceal(m_frame);
    m_counts.concealedSamples += length;
    m_counts.lostSamples += length;
    const std::int64_t from = m_at;
    m_at += static_cast<std::int64_t>(length);
    return putOut(length, from, m_at);
}

/// Sound flows again at `at`: what the wait was.
void Playout::resume(std::int64_t at)
{
    const std::int64_t missing = at - m_at;
    const bool mute = m_wasSilent && missing >= kConcealed * kFrame;
    if (m_emptyPieces > 0 && m_waited > 0 && !mute) {
        ++m_counts.interruptions;
        m_counts.waitedSamples += static_cast<std::uint64_t>(m_waited);
    }
    if (!mute)
        m_counts.lostSamples += static_cast<std::uint64_t>(missing);
    m_fadeIn = m_fadeIn || m_emptyPieces > kConcealed;
    m_emptyPieces = 0;
    m_waited = 0;
    m_at = at;
}

Playout::Piece Playout::framePiece(const PacketStore::Entry& entry)
{
    const double wanted = m_watch.allowance();
    if (m_emptyPieces == 0 && !m_resized && quietNow() && held() < wanted - kUneven) {
        m_resized = true;
        ++m_counts.lengthened;
        m_decoder.conceal(m_frame);
        return putOut(kSoundFrame, m_at, m_at);
    }
    resume(entry.at);
    m_decoder.decode(entry.packet->payload(), m_frame);
    m_store.pop();
    const std::int64_t from = m_at;
    m_at += kFrame;

    float sum = 0;
    float peak = 0;
    for (const float sample : m_frame) {
        sum += sample * sample;
        peak = std::max(peak, std::abs(sample));
    }
    m_meanSquare = sum / kSoundFrame;
    m_loud = std::max(m_meanSquare, m_loud * 0.998F);
    m_wasSilent = peak < kSilent;
    if (m_fadeIn) {
        for (std::size_t i = 0; i < m_tail.size(); ++i) {
            const float in = (static_cast<float>(i) + 0.5F) / static_cast<float>(m_tail.size());
            m_frame[i] = m_frame[i] * in + m_tail[i] * (1 - in);
        }
        m_fadeIn = false;
        m_tail.fill(0);
    }
    if (!m_resized && quietNow() && held() > wanted + kUneven) {
        m_resized = true;
        ++m_counts.shortened;
        shorten();
        return putOut(m_tail.size(), from, m_at);
    }
    m_resized = false;
    return putOut(kSoundFrame, from, m_at);
}

bool Playout::quietNow() const
{
    return m_meanSquare <= m_loud * kQuiet;
}

/// The frame's first 5 ms go over into its last 5 ms: it joins on to what was before and what comes after.
void Playout::shorten()
{
    const std::size_t length = m_tail.size();
    for (std::size_t i = 0; i < length; ++i) {
        const float in = (static_cast<float>(i) + 0.5F) / static_cast<float>(length);
        m_frame[i] = m_frame[i] * (1 - in) + m_frame[kSoundFrame - length + i] * in;
    }
}

/// Too far behind: drops what is older than the delay that is wanted. The decoder hears the last of it, to be in step.
void Playout::catchUp()
{
    const double goal = delayOf(0) - m_watch.fastest() - m_watch.allowance();
    ++m_counts.skips;
    m_tail.fill(0);
    if (m_emptyPieces <= kConcealed && m_waited >= 0) {
        m_decoder.conceal(m_frame);
        std::copy_n(m_frame.begin(), m_tail.size(), m_tail.begin());
    }
    while (!m_store.empty() && static_cast<double>(m_store.front().at + kFrame) <= goal) {
        if (static_cast<double>(m_store.front().at + kPrimed) >= goal)
            m_decoder.decode(m_store.front().packet->payload(), m_frame);
        m_store.pop();
    }
    m_fadeIn = true;
    m_waited = goal - static_cast<double>(m_at);
}

} // namespace vh
