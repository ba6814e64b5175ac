#include "server/net/poller.h"

#include <cerrno>
#include <system_error>
#include <unistd.h>

namespace vh::net
{

Poller::Poller() : m_descriptor(epoll_create1(EPOLL_CLOEXEC))
{
    if (m_descriptor < 0)
        throw std::system_error(errno, std::generic_category(), "epoll_create1");
}

Poller::~Poller()
{
    ::close(m_descriptor);
}

bool Poller::add(int descriptor, PollTarget& target, std::uint32_t events) const
{
    epoll_event event{};
    event.events = events;
    event.data.ptr = &target;
    return epoll_ctl(m_descriptor, EPOLL_CTL_ADD, descriptor, &event) == 0;
}

void Poller::change(int descriptor, PollTarget& target, std::uint32_t events) const
{
    epoll_event event{};
    event.events = events;
    event.data.ptr = &target;
    epoll_ctl(m_descriptor, EPOLL_CTL_MOD, descriptor, &event);
}

void Poller::remove(int descriptor, PollTarget& target)
{
    epoll_ctl(m_descriptor, EPOLL_CTL_DEL, descriptor, nullptr);
    for (auto i = m_at; i < m_count; ++i)
        if (m_batch[i].data.ptr == &target)
            m_batch[i].data.ptr = nullptr;
}

bool Poller::harvest(int timeoutMs)
{
    const int count = epoll_wait(m_descriptor, m_batch.data(), static_cast<int>(m_batch.size()), timeoutMs);
    m_count = count > 0 ? static_cast<std::size_t>(count) : 0;
    for (m_at = 0; m_at < m_count;) {
        const auto& event = m_batch[m_at++];
        if (event.data.ptr)
            static_cast<PollTarget*>(event.data.ptr)->onReady(event.events);
    }
    const bool full = m_count == m_batch.size();
    m_at = m_count = 0;
    return full;
}

} // namespace vh::net
