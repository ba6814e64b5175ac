#include "app/sound/far_end.h"

#include <algorithm>
#include <array>

namespace vh::sound
{

void FarEnd::begin() noexcept
{
    discard(m_ring.ready());
    m_flowing = false;
    m_least = std::numeric_limits<std::size_t>::max();
    m_window = 0;
}

void FarEnd::read(std::span<float> into) noexcept
{
    std::size_t ready = m_ring.ready();
    if (!m_flowing && ready >= into.size() + kPrime) {
        m_flowing = true;
        if (ready > into.size() + kMostStock) // an output fills its buffer at once when it opens
            discard(ready - into.size() - kStock);
        ready = m_ring.ready();
    }
    const std::size_t got = m_flowing ? m_ring.read(into) : 0;
    std::fill(into.begin() + static_cast<std::ptrdiff_t>(got), into.end(), 0.0F);
    if (m_flowing && got < into.size()) {
        m_flowing = false;
        m_ranDry.fetch_add(1, std::memory_order_relaxed);
    }
    watchStock(ready - std::min(ready, got), into.size());
    if (!leaks())
        std::fill(into.begin(), into.end(), 0.0F);
}

void FarEnd::watchStock(std::size_t left, std::size_t step) noexcept
{
    m_least = m_flowing ? std::min(m_least, left) : 0;
    m_window += step;
    if (m_window < kWindow)
        return;
    if (m_least > kMostStock)
        discard(m_least - kStock);
    m_least = std::numeric_limits<std::size_t>::max();
    m_window = 0;
}

void FarEnd::discard(std::size_t count) noexcept
{
    std::array<float, 512> waste;
    m_cutOut.fetch_add(count, std::memory_order_relaxed);
    while (count > 0) {
        const std::size_t gone = m_ring.read(std::span(waste).first(std::min(count, waste.size())));
        if (gone == 0)
            return;
        count -= gone;
    }
}

} // namespace vh::sound
