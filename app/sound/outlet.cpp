#include "app/sound/outlet.h"
#include "app/sound/from_mono.h"

#include <algorithm>

namespace vh::sound
{

Outlet::Outlet(const QAudioFormat& format, SampleFeed& feed)
    : m_format(format), m_feed(feed), m_resampler(kPlayedRateHz, format.sampleRate()),
      // What one piece may become at the highest rate, twice: the resampler's count is right in the long run only.
      m_waiting(2 * kPiece * Resampler::kHighestRateHz / kPlayedRateHz)
{
    open(QIODevice::ReadOnly | QIODevice::Unbuffered);
}

qint64 Outlet::readData(char* data, qint64 most)
{
    const auto frameBytes = static_cast<std::size_t>(m_format.bytesPerFrame());
    auto rest = std::as_writable_bytes(std::span(data, static_cast<std::size_t>(most)));
    while (rest.size() >= frameBytes) {
        if (m_from == m_to)
            fetch();
        const std::size_t frames = fromMono(std::span(m_waiting).subspan(m_from, m_to - m_from), m_format, rest);
        m_from += frames;
        m_framesTaken += static_cast<qint64>(frames);
        rest = rest.subspan(frames * frameBytes);
    }
    return most - static_cast<qint64>(rest.size());
}

void Outlet::fetch()
{
    m_from = m_to = 0;
    while (m_to == 0) { // a resampler may keep its first piece to itself
        m_feed.render(m_piece, untilHeard());
        m_resampler.push(m_piece, [this](std::span<const float> ready) {
            const std::size_t count = std::min(ready.size(), m_waiting.size() - m_to);
            std::copy_n(ready.begin(), count, m_waiting.begin() + static_cast<std::ptrdiff_t>(m_to));
            m_to += count;
        });
    }
}

std::chrono::microseconds Outlet::untilHeard() const
{
    if (!m_sink)
        return {};
    const qint64 taken = m_framesTaken * 1'000'000 / m_format.sampleRate();
    return std::chrono::microseconds(std::max<qint64>(taken - m_sink->processedUSecs(), 0));
}

} // namespace vh::sound
