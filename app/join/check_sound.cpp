#include "app/join/check_sound.h"

#include <algorithm>

namespace vh::join
{

namespace
{
constexpr std::size_t kFrame = sound::kPlayedRateHz / 100;
constexpr std::size_t kSilenceFirst = kFrame * 120; ///< what the room is just before
} // namespace

class CheckSound::Listener final : public sound::LineListener
{
public:
    void hear(std::span<const float> microphone, std::span<const float> farEnd) noexcept override
    {
        if (!m_wanted.load(std::memory_order_relaxed))
            return;
        for (std::size_t i = 0; i < microphone.size(); ++i) {
            const double heard = m_microphone.push(static_cast<double>(microphone[i])).a;
            const double played = m_far.push(i < farEnd.size() ? static_cast<double>(farEnd[i]) : 0.0).a;
            m_heard += heard * heard;
            m_played += played * played;
            if (++m_filled < kFrame)
                continue;
            m_queue.push({static_cast<float>(m_heard / kFrame), static_cast<float>(m_played / kFrame)});
            m_heard = m_played = 0;
            m_filled = 0;
            m_microphone.tidy();
            m_far.tidy();
        }
    }
    void want(bool yes) { m_wanted.store(yes, std::memory_order_relaxed); }
    void drain(const std::function<void(const Heard&)>& sink) { m_queue.drain(sink); }

private:
    std::atomic<bool> m_wanted{false};
    sound::SpscQueue<Heard, 1024> m_queue; ///< ten seconds
    Weighting m_microphone{sound::kPlayedRateHz};
    Weighting m_far{sound::kPlayedRateHz};
    double m_heard = 0;
    double m_played = 0;
    std::size_t m_filled = 0;
};

CheckSound::CheckSound(sound::Ears& ears, std::shared_ptr<sound::FarEnd> farEnd, QObject* parent)
    : QObject(parent), m_ears(ears), m_farEnd(std::move(farEnd)), m_listener(std::make_shared<Listener>())
{
    m_ears.addListener(m_listener);
}

CheckSound::~CheckSound()
{
    stop();
    m_ears.removeListener(m_listener);
}

void CheckSound::make()
{
    if (!m_sound.samples.empty())
        return;
    m_sound = makeProbeSound();
    m_sound.samples.insert(m_sound.samples.begin(), kSilenceFirst, 0.0F);
}

const ProbeLayout& CheckSound::layout()
{
    make();
    return m_sound.layout;
}

void CheckSound::start(const sound::DeviceChoice& where)
{
    make();
    stop();
    m_listener->drain([](const Heard&) {}); // of an earlier time
    m_listener->want(true);
    m_on = true;
    if (!m_loudspeaker) {
        m_loudspeaker = std::make_unique<sound::Loudspeaker>(m_feed, m_farEnd);
        connect(m_loudspeaker.get(), &sound::Loudspeaker::stateChanged, this, &CheckSound::stateChanged);
    }
    m_feed.playClip(m_sound.samples);
    m_loudspeaker->start(where);
}

void CheckSound::stop()
{
    if (!std::exchange(m_on, false))
        return;
    m_listener->want(false);
    m_feed.playClip({});
    if (m_loudspeaker)
        m_loudspeaker->stop();
}

void CheckSound::drain(const std::function<void(const Heard&)>& sink)
{
    m_listener->drain(sink);
}

void CheckSound::advance(std::chrono::milliseconds by)
{
    if (m_on && m_loudspeaker)
        m_loudspeaker->advance(by);
}

} // namespace vh::join
