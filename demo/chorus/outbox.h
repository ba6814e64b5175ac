#pragma once
// Requests that have not been answered: each is kept as it was sent, and sent again with the same id when the line is
// back or the relay was busy, until it is acknowledged or refused. Bounded: when full, the oldest is given up.
// Plain value; thread: its owner's.
#include "common/base/id.h"

#include <deque>
#include <functional>
#include <string>

namespace vh::chorus
{

class Outbox
{
public:
    static constexpr std::size_t kMost = 200;
    using Send = std::function<void(const std::string& text)>;

    /// False when something older had to be given up for it.
    bool keep(RequestId id, std::string text)
    {
        const bool full = m_kept.size() >= kMost;
        if (full)
            m_kept.pop_front();
        m_kept.push_back({id, std::move(text), false});
        return !full;
    }
    /// Acknowledged, or refused for good. False when it was not, or is no longer, waited for.
    bool settle(RequestId id)
    {
        return std::erase_if(m_kept, [&](const Kept& each) { return each.id == id; }) > 0;
    }
    /// Not taken this time.
    void putOff(RequestId id)
    {
        for (Kept& each : m_kept)
            each.putOff = each.putOff || each.id == id;
    }

    /// How many were sent.
    std::size_t sendAll(const Send& send)
    {
        for (Kept& each : m_kept) {
            each.putOff = false;
            send(each.text);
        }
        return m_kept.size();
    }
    std::size_t sendPutOff(const Send& send)
    {
        std::size_t sent = 0;
        for (Kept& each : m_kept)
            if (std::exchange(each.putOff, false)) {
                send(each.text);
                ++sent;
            }
        return sent;
    }

    [[nodiscard]] bool isEmpty() const { return m_kept.empty(); }

private:
    struct Kept {
        RequestId id;
        std::string text;
        bool putOff = false;
    };
    std::deque<Kept> m_kept;
};

} // namespace vh::chorus
