#include "app/people/call_bell.h"

#include "common/sound/bell.h"

namespace vh
{

std::vector<float> callRing()
{
    constexpr std::size_t kApart = sound::kPlayedRateHz * 45 / 100; // two strokes: the class's own bell has one
    std::vector<float> samples(kApart + Bell::kSamples);
    Bell bell;
    bell.strike();
    bell.mixInto(std::span(samples).first(kApart));
    bell.strike();
    bell.mixInto(std::span(samples).subspan(kApart));
    return samples;
}

CallBell::CallBell(QObject* parent) : QObject(parent)
{
    m_off.setSingleShot(true);
    connect(&m_off, &QTimer::timeout, this, [this] { m_loudspeaker->stop(); });
}

CallBell::~CallBell() = default;

void CallBell::ring()
{
    if (!m_loudspeaker)
        m_loudspeaker = std::make_unique<sound::Loudspeaker>(m_feed, std::make_shared<sound::FarEnd>());
    if (!m_feed.clipPlays()) // else the one that no loudspeaker has played yet
        m_feed.playClip(callRing());
    if (!m_off.isActive())
        m_loudspeaker->start(m_where);
    m_off.start(kRingTakes);
}

} // namespace vh
