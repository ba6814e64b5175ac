#include "common/home/cue_clock.h"

#include <algorithm>
#include <utility>

namespace vh
{

void CueClock::setStream(std::optional<std::uint32_t> stream)
{
    if (stream == m_stream)
        return;
    m_stream = stream;
    m_lastFrame.reset();
    for (Ahead& ahead : m_ahead) // what was counted in the stream before means nothing in this one
        ahead.sample.reset();
}

void CueClock::frameCame(std::uint32_t stream, std::uint64_t firstSample, Instant now)
{
    if (stream != m_stream)
        return; // of somebody whom the leader has asked to be heard
    m_lastFrame = now;
    for (Ahead& ahead : m_ahead)
        if (!ahead.sample)
            ahead.sample = firstSample;
}

void CueClock::placeCame(const wire::PlaceNow& place, Instant now)
{
    const bool goesOn = place.phase == Phase::running || place.phase == Phase::waiting;
    const wire::PlaceNow* before = m_ahead.empty() ? (m_cue ? &*m_cue : nullptr) : &m_ahead.back().place;
    const bool otherClass = !before || before->classId != place.classId;
    if (!goesOn || otherClass || (m_ahead.empty() && !flows(now)))
        return stand(place);
    if (before->turnSerial != place.turnSerial)
        return m_ahead.push_back({place, now, std::nullopt});
    // Held, going on, or said once more: the same turn.
    if (m_ahead.empty())
        stand(place);
    else
        m_ahead.back().place = place;
}

void CueClock::forget()
{
    m_ahead.clear();
    m_cue.reset();
    m_changed = false;
}

bool CueClock::look(std::optional<std::uint64_t> audibleUpTo, Instant now)
{
    const auto due = std::find_if(m_ahead.rbegin(), m_ahead.rend(),
                                  [&](const Ahead& ahead) { return isDue(ahead, audibleUpTo, now); });
    if (due != m_ahead.rend()) {
        m_cue = due->place;
        m_changed = true;
        m_ahead.erase(m_ahead.begin(), due.base());
    }
    return std::exchange(m_changed, false);
}

bool CueClock::flows(Instant now) const
{
    return m_stream && m_lastFrame && now - *m_lastFrame < kQuietAfter;
}

bool CueClock::isDue(const Ahead& ahead, std::optional<std::uint64_t> audibleUpTo, Instant now) const
{
    if (now - ahead.cameAt >= kAtMost || now < ahead.cameAt)
        return true;
    if (!audibleUpTo || !m_stream) // nothing is played here, or nothing more is sent
        return true;
    return ahead.sample ? *audibleUpTo > *ahead.sample : !flows(now);
}

void CueClock::stand(const wire::PlaceNow& place)
{
    m_ahead.clear();
    m_cue = place;
    m_changed = true;
}

} // namespace vh
