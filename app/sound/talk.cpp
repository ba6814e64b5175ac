#include "app/sound/talk.h"
#include "app/sound/ears.h"
#include "app/sound/spsc_queue.h"
#include "common/echo/echo_reducer.h"
#include "common/sound/packet_queue.h"
#include "common/sound/voice_sender.h"

#include <QRandomGenerator>

#include <atomic>
#include <utility>

namespace vh::sound
{

namespace
{

constexpr std::chrono::milliseconds kHand{5}; // a frame waits half of this on average

using Steady = std::chrono::steady_clock;

std::int64_t samplesIn(Steady::duration span)
{
    return std::chrono::duration_cast<std::chrono::microseconds>(span).count() * kSoundRateHz / 1'000'000;
}

} // namespace

/// What of it lives on the microphone's worker.
class Talk::Line final : public LineListener
{
public:
    explicit Line(std::uint32_t stream) : m_sender(stream) {}

    void opened() override // the worker does not run yet
    {
        m_gap = true;
        m_reducer.restart();
    }

    void hear(std::span<const float> microphone, std::span<const float> farEnd) noexcept override
    {
        const auto now = Steady::now();
        if (std::exchange(m_gap, false) && m_heardAny)
            m_passed +=
                std::max<std::int64_t>(samplesIn(now - m_lastHeard) - static_cast<std::int64_t>(microphone.size()), 0);
        m_lastHeard = now;
        m_heardAny = true;
        m_reducer.push(microphone, farEnd, [this](std::span<const float, EchoReducer::kFrame> clean) { send(clean); });
    }

    VoiceSender& sender() { return m_sender; }
    void setOn(bool on) { m_on = on; }
    SpscQueue<SoundPacket, 256>& packets() { return m_packets; }

private:
    void send(std::span<const float> clean) noexcept
    {
        if (!m_on) {
            m_passed += static_cast<std::int64_t>(clean.size());
            return;
        }
        if (m_passed > 0)
            m_sender.passOver(static_cast<std::uint64_t>(std::exchange(m_passed, 0)));
        m_sender.push(clean, [this](const wire::SoundHead& head, std::span<const std::uint8_t> payload) {
            m_packet.set(head, payload);
            m_packets.push(m_packet);
        });
    }

    VoiceSender m_sender;
    std::atomic<bool> m_on{false};
    SpscQueue<SoundPacket, 256> m_packets; ///< five seconds
    EchoReducer m_reducer;                 ///< the worker's, as all below
    SoundPacket m_packet;
    Steady::time_point m_lastHeard;
    bool m_heardAny = false;
    bool m_gap = true;
    std::int64_t m_passed = 0; ///< samples since the last one that went into the sender
};

std::uint32_t Talk::newStream()
{
    return QRandomGenerator::system()->bounded(1U, ~0U);
}

Talk::Talk(Ears& ears, std::uint32_t stream, QObject* parent)
    : QObject(parent), m_ears(ears), m_line(std::make_shared<Line>(stream))
{
    m_ears.addListener(m_line);
    m_handTimer.setTimerType(Qt::PreciseTimer);
    connect(&m_handTimer, &QTimer::timeout, this, &Talk::hand);
}

Talk::~Talk()
{
    m_line->setOn(false);
    m_ears.removeListener(m_line); // an open line keeps it until it is closed
}

std::uint32_t Talk::stream() const
{
    return m_line->sender().stream();
}

void Talk::begin(Send send)
{
    m_line->packets().drain([](const SoundPacket&) {}); // of an earlier time
    m_send = std::move(send);
    m_line->setOn(true);
    m_handTimer.start(kHand);
}

void Talk::end()
{
    m_line->setOn(false);
    m_handTimer.stop();
    stopRecording();
    m_send = nullptr;
}

void Talk::hand()
{
    if (m_recording.feed(m_line->sender().recording()))
        emit recordingEnded();
    m_line->packets().drain([this](const SoundPacket& packet) {
        if (m_send) // what it does may end() it
            m_send(packet.head, packet.payload());
    });
}

void Talk::setMuted(bool muted)
{
    m_line->sender().setMuted(muted);
}

bool Talk::muted() const
{
    return m_line->sender().muted();
}

void Talk::setYours(bool yours)
{
    m_line->sender().setYours(yours);
}

void Talk::ring()
{
    m_line->sender().strikeBell();
}

Result<std::chrono::milliseconds> Talk::loadRecording(const QString& path)
{
    stopRecording();
    return m_recording.load(path);
}

void Talk::playRecording()
{
    m_recording.play(m_line->sender().recording());
}

void Talk::stopRecording()
{
    m_recording.stop(m_line->sender().recording());
}

std::uint64_t Talk::droppedFrames() const
{
    return m_line->packets().dropped();
}

} // namespace vh::sound
