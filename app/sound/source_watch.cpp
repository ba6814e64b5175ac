#include "app/sound/source_watch.h"

namespace vh::sound
{

void SourceWatch::begin(Instant now)
{
    m_state = EarsState::opening;
    m_heardSinceBegin = false;
    m_nextTry = now;
}

SourceWatch::Do SourceWatch::look(const Seen& seen)
{
    if (m_state == EarsState::off || m_state == EarsState::fileEnded)
        return Do::nothing;
    if (!seen.open)
        return tryToOpen(seen);
    if (seen.samples != m_samples) {
        m_samples = seen.samples;
        m_lastSound = seen.now;
        m_state = EarsState::hearing;
        m_heardSinceBegin = true;
    }
    if (seen.health == SourceHealth::ended) {
        m_state = EarsState::fileEnded;
        return Do::close;
    }
    const Millis patience = m_samples > seen.ahead ? kSilentLine : kFirstSample;
    const bool silent = seen.microphone && seen.now - m_lastSound > patience;
    return seen.health == SourceHealth::failed || !seen.present || silent ? lose(seen) : Do::nothing;
}

SourceWatch::Do SourceWatch::lose(const Seen& seen)
{
    m_state = m_heardSinceBegin || seen.present ? EarsState::deviceLost : EarsState::noDevice;
    return Do::close;
}

void SourceWatch::opened(Instant now)
{
    m_samples = 0;
    m_lastSound = now;
    m_nextTry = now + kTryAgain;
}

SourceWatch::Do SourceWatch::tryToOpen(const Seen& seen)
{
    if (seen.now < m_nextTry)
        return Do::nothing;
    if (!seen.present) {
        m_state = m_heardSinceBegin ? EarsState::deviceLost : EarsState::noDevice;
        return Do::nothing;
    }
    opened(seen.now);
    if (m_state == EarsState::noDevice) // one has come; while a lost one is tried again, the words stay
        m_state = EarsState::opening;
    return Do::open;
}

} // namespace vh::sound
