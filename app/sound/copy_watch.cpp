#include "app/sound/copy_watch.h"
#include "app/sound/ears.h"
#include "common/signal/spsc_ring.h"

#include <atomic>
#include <utility>
#include <vector>

namespace vh::sound
{

namespace
{
constexpr std::chrono::milliseconds kLook{500};
} // namespace

/// Both comparisons, on the microphone's worker. The monitor's samples come by a ring, from the sound server's thread;
/// read in step with the far end they only shift against it, and what is looked for is a second delay, not which.
class CopyWatch::Line final : public LineListener, public SampleSink
{
public:
    void opened() override
    {
        m_room.restart();
        m_system.restart();
    }

    void take(std::span<const float> samples) noexcept override { m_ring.write(samples); }

    void hear(std::span<const float> microphone, std::span<const float> farEnd) noexcept override
    {
        if (!m_on)
            return;
        m_room.push(farEnd, microphone);
        m_copiesInRoom = m_room.found().copies;
        for (std::span<const float> far = farEnd; !far.empty();) {
            const auto piece = std::span(m_piece).first(std::min(far.size(), m_piece.size()));
            const std::size_t got = m_ring.read(piece);
            std::fill(piece.begin() + static_cast<std::ptrdiff_t>(got), piece.end(), 0.0F);
            m_system.push(far.first(piece.size()), piece);
            far = far.subspan(piece.size());
        }
        m_copiesInSystem = m_system.found().copies;
    }

    void setOn(bool on) { m_on = on; }
    [[nodiscard]] Heard heard() const { return {m_copiesInSystem > 1, m_copiesInRoom > 1}; }

private:
    SpscRing m_ring{48'000};
    std::atomic<bool> m_on{false};
    std::atomic<int> m_copiesInRoom{0};
    std::atomic<int> m_copiesInSystem{0};
    std::vector<float> m_piece = std::vector<float>(1024); ///< the worker's, as all below
    TwoCopies m_room;
    TwoCopies m_system;
};

CopyWatch::CopyWatch(Ears& ears, QObject* parent) : CopyWatch(ears, makeMonitorSource, parent) {}

CopyWatch::CopyWatch(Ears& ears, std::function<std::unique_ptr<SoundSource>()> makeMonitor, QObject* parent)
    : QObject(parent), m_ears(ears), m_makeMonitor(std::move(makeMonitor)), m_line(std::make_shared<Line>())
{
    m_ears.addListener(m_line);
    connect(&m_lookTimer, &QTimer::timeout, this, &CopyWatch::look);
}

CopyWatch::~CopyWatch()
{
    stop();
    m_ears.removeListener(m_line); // an open line keeps it until it is closed
}

void CopyWatch::start()
{
    m_monitor = m_makeMonitor();
    if (m_monitor)
        m_monitor->start(*m_line);
    m_line->setOn(true);
    m_lookTimer.start(kLook);
}

void CopyWatch::stop()
{
    m_lookTimer.stop();
    m_line->setOn(false);
    m_monitor.reset();
}

void CopyWatch::look()
{
    const Heard heard = m_line->heard();
    if (heard == m_heard)
        return;
    m_heard = heard;
    emit changed();
}

} // namespace vh::sound
