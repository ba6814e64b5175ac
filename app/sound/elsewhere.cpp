#include "app/sound/elsewhere.h"

#include <utility>

namespace vh::sound
{

namespace
{

constexpr std::chrono::milliseconds kLook{200};
constexpr int kLooksBetweenTries = 5; // a second
// A monitor brings its pieces some 10 to 30 ms after they were mixed; a quick microphone hears them sooner.
constexpr std::chrono::milliseconds kMicrophoneDelay{100};

} // namespace

class Elsewhere::Sink final : public SampleSink
{
public:
    explicit Sink(FarEnd& farEnd) : m_farEnd(farEnd) {}
    void take(std::span<const float> samples) noexcept override { m_farEnd.hand(samples); }

private:
    FarEnd& m_farEnd;
};

Elsewhere::Elsewhere(std::shared_ptr<FarEnd> farEnd, QObject* parent)
    : Elsewhere(std::move(farEnd), makeMonitorSource, parent)
{
}

Elsewhere::Elsewhere(std::shared_ptr<FarEnd> farEnd, MakeMonitor make, QObject* parent)
    : QObject(parent), m_farEnd(std::move(farEnd)), m_make(std::move(make)), m_sink(std::make_unique<Sink>(*m_farEnd))
{
    connect(&m_lookTimer, &QTimer::timeout, this, &Elsewhere::look);
}

Elsewhere::~Elsewhere()
{
    stop();
}

void Elsewhere::start()
{
    m_farEnd->setMicrophoneDelay(kMicrophoneDelay);
    m_sinceTry = kLooksBetweenTries;
    m_lookTimer.start(kLook);
    look();
}

void Elsewhere::stop()
{
    m_lookTimer.stop();
    m_monitor.reset();
    m_farEnd->setMicrophoneDelay({});
    setState(State::off);
}

void Elsewhere::look()
{
    if (m_monitor && m_monitor->health() != SourceHealth::good)
        m_monitor.reset();
    if (!m_monitor && ++m_sinceTry >= kLooksBetweenTries) {
        m_sinceTry = 0;
        m_monitor = m_make();
        if (m_monitor)
            m_monitor->start(*m_sink);
    } else {
        setState(m_monitor ? State::on : State::noMonitor);
    }
}

void Elsewhere::setState(State state)
{
    if (state == m_state)
        return;
    m_state = state;
    emit stateChanged(state);
}

} // namespace vh::sound
