#include "common/sound/playout.h"

#include <algorithm>
#include <cmath>

namespace vh
{

namespace
{
constexpr std::int64_t kFrame = kSoundFrame;
constexpr std::size_t kWait = 480; ///< waits grow by so much: 10 ms, the least that the codec conceals in all its modes
constexpr int kConcealed = 10;     ///< of them; the decoder itself has faded by then
constexpr int kUntilIdle = 20;
constexpr std::int64_t kLongestLoss = 5 * kFrame; ///< concealed; a longer gap is not worth pretending
constexpr std::int64_t kPrimed = 4 * kFrame;      ///< decoded unheard before a jump's goal: 80 ms, RFC 7845 section 4.6
constexpr double kAhead = 48'000;                 ///< further ahead than this a count is of another time
constexpr double kOver = 960;                     ///< over the limit by so much before sound is dropped
constexpr double kUneven = 960;                   ///< quiet frames are resized beyond so much
constexpr float kQuiet = 0.003F;                  ///< 25 dB under the louder frames, as mean square
constexpr float kSilent = 3e-4F;                  ///< peak of what a frame of pure silence decodes to
constexpr double kMostDrift = 600e-6;
constexpr double kMostSpeed = 2'500e-6; ///< four hundredths of a semitone
constexpr double kSpeedStep = 250e-6;   ///< a second

/// What is made up goes to nothing from its 50th to its 100th ms. `before` of it are out already.
void fadeOut(std::span<float> made, std::size_t before)
{
    constexpr auto kWhole = static_cast<float>(kConcealed * kWait);
    for (std::size_t i = 0; i < made.size(); ++i)
        made[i] *= std::clamp(2 - 2 * static_cast<float>(before + i) / kWhole, 0.0F, 1.0F);
}
} // namespace

void Playout::put(const SoundPacket& packet)
{
    if (!m_started || packet.head.stream != m_stream)
        begin(packet);
    if (packet.head.firstSample < m_base + static_cast<std::uint64_t>(m_at)) {
        ++m_counts.lateFrames;
        m_watch.saw(static_cast<double>(m_rendered) + static_cast<double>(m_base - packet.head.firstSample));
        return;
    }
    if (static_cast<double>(packet.head.firstSample - m_base) > due() + kAhead)
        begin(packet); // the loudspeaker stood still, or the count leapt
    const auto at = static_cast<std::int64_t>(packet.head.firstSample - m_base);
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
    m_into = 0;
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
    // Slowly, so that it is no more audible than the speed itself.
    const double step = kSpeedStep * static_cast<double>(out.size()) / kSoundRateHz;
    m_bridge.setSpeed(std::clamp(m_wantedSpeed, m_bridge.speed() - step, m_bridge.speed() + step));
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
    m_wantedSpeed = speed;
}

Playout::Piece Playout::nextPiece()
{
    while (!m_store.empty() && m_store.front().at < m_at) {
        ++m_counts.lateFrames;
        m_store.pop();
    }
    if (m_store.empty())
        return waitingPiece(kWait);
    if (delayOf(std::min(due(), static_cast<double>(m_store.front().at))) >
        m_watch.fastest() + LineWatch::kMost + kOver)
        catchUp();
    if (m_store.empty())
        return waitingPiece(kWait);
    const auto next = m_store.front();
    const double ahead = static_cast<double>(next.at) - due();
    return ahead >= 1 ? gapPiece(next, ahead) : framePiece(next);
}

Playout::Piece Playout::give(std::size_t length, std::int64_t from, std::int64_t to)
{
    m_map.add(m_bridge.taken(), length, from, to);
    return Piece(m_frame).first(length);
}

/// Nothing to play: what was heard last goes on and fades, then silence.
Playout::Piece Playout::waitingPiece(std::size_t length)
{
    // After a silent frame the codec would go on from the sound before it.
    if (m_waited >= 0 && m_emptyPieces < kConcealed && !m_wasSilent) {
        const auto made = std::span(m_frame).first(kWait);
        m_decoder.conceal(made);
        fadeOut(made, static_cast<std::size_t>(m_emptyPieces) * kWait);
        m_counts.concealedSamples += length;
    } else {
        m_frame.fill(0);
    }
    ++m_emptyPieces;
    m_waited += static_cast<double>(length);
    m_idle = m_emptyPieces > kUntilIdle && m_store.empty();
    return give(length, m_at, m_at);
}

/// The next frame is not for now: frames are missing before it, or it is the first after a mute, or of all.
Playout::Piece Playout::gapPiece(const PacketStore::Entry& next, double ahead)
{
    const auto length = static_cast<std::size_t>(std::min<double>(std::floor(ahead), kSoundFrame));
    if (m_waited < 0 || m_wasSilent || next.at - m_at > kLongestLoss)
        return waitingPiece(std::min(length, kWait));
    if (ahead < kFrame + 1)
        m_decoder.recover(next.packet->payload(), m_frame);
    else
        m_decoder.conceal(m_frame);
    m_counts.concealedSamples += length;
    m_counts.lostSamples += length;
    const std::int64_t from = m_at;
    m_at += static_cast<std::int64_t>(length);
    return give(length, from, m_at);
}

/// Sound flows again at `at`: what the wait was.
void Playout::resume(std::int64_t at)
{
    const std::int64_t missing = at - m_at;
    const bool mute = m_wasSilent && missing >= kLongestLoss;
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
        if (m_wasSilent)
            m_frame.fill(0);
        else
            m_decoder.conceal(m_frame);
        return give(kSoundFrame, m_at, m_at);
    }
    resume(entry.at);
    m_decoder.decode(entry.packet->payload(), m_frame);
    m_store.pop();
    listen();
    if (m_into > 0)
        std::copy(m_frame.begin() + static_cast<std::ptrdiff_t>(m_into), m_frame.end(), m_frame.begin());
    const std::size_t length = kSoundFrame - m_into;
    m_counts.lostSamples += m_into;
    const std::int64_t from = m_at + static_cast<std::int64_t>(m_into);
    m_into = 0;
    m_at += kFrame;

    if (m_fadeIn) {
        for (std::size_t i = 0; i < m_tail.size(); ++i) {
            const float in = (static_cast<float>(i) + 0.5F) / static_cast<float>(m_tail.size());
            m_frame[i] = m_frame[i] * in + m_tail[i] * (1 - in);
        }
        m_fadeIn = false;
        m_tail.fill(0);
    }
    if (length == kSoundFrame && !m_resized && quietNow() && held() > wanted + kUneven) {
        m_resized = true;
        ++m_counts.shortened;
        shorten();
        return give(m_tail.size(), from, m_at);
    }
    m_resized = false;
    return give(length, from, m_at);
}

/// To the frame just decoded: how loud it is, and whether it is pure silence (its first half still holds the end of the
/// frame before, by the codec's look-ahead).
void Playout::listen()
{
    float sum = 0;
    float peak = 0;
    for (std::size_t i = 0; i < kSoundFrame; ++i) {
        sum += m_frame[i] * m_frame[i];
        if (i >= kSoundFrame / 2)
            peak = std::max(peak, std::abs(m_frame[i]));
    }
    m_meanSquare = sum / kSoundFrame;
    m_loud = std::max(m_meanSquare, m_loud * 0.998F);
    m_wasSilent = peak < kSilent;
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
    if (m_emptyPieces < kConcealed && m_waited >= 0 && !m_wasSilent) {
        const auto made = std::span(m_frame).first(kWait);
        m_decoder.conceal(made);
        fadeOut(made, static_cast<std::size_t>(m_emptyPieces) * kWait);
        std::copy_n(m_frame.begin(), m_tail.size(), m_tail.begin());
    }
    while (!m_store.empty() && static_cast<double>(m_store.front().at + kFrame) <= goal) {
        if (static_cast<double>(m_store.front().at + kPrimed) >= goal)
            m_decoder.decode(m_store.front().packet->payload(), m_frame);
        m_store.pop();
    }
    if (!m_store.empty()) // at the goal to the sample, but for what the fade needs
        m_into = static_cast<std::size_t>(
            std::clamp<double>(goal - static_cast<double>(m_store.front().at), 0, kSoundFrame - m_tail.size()));
    m_fadeIn = true;
    m_waited = goal - static_cast<double>(m_at);
}

} // namespace vh
