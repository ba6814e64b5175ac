#pragma once
// Our own level-triggered epoll set: hot connections live here as plain objects, without a handler allocation, a
// coroutine or a read buffer each. Harvested in batches. Thread: one. A target may remove itself or any other target
// while a batch is being handed out: nobody is called after its removal.
#include <array>
#include <chrono>
#include <cstddef>
#include <cstdint>
#include <sys/epoll.h>

namespace vh::net
{

using SteadyTime = std::chrono::steady_clock::time_point;

class PollTarget
{
public:
    PollTarget() = default;
    PollTarget(const PollTarget&) = delete;
    PollTarget& operator=(const PollTarget&) = delete;
    virtual ~PollTarget() = default;
    /// `events` as epoll reports them (EPOLLIN, EPOLLOUT, EPOLLERR, EPOLLHUP).
    virtual void onReady(std::uint32_t events) = 0;
    /// About twice a second for targets a Loop keeps: deadlines and silence.
    virtual void onSweep(SteadyTime /*now*/) {}
    /// The relay is going: say so to the other side. Nothing may be destroyed in here.
    virtual void onStopping() {}
    /// The Loop that keeps it is going: let go of it and of everything that may hold this target.
    virtual void onLoopEnds() {}

private:
    friend class Loop;
    std::size_t m_keptAt = 0; ///< place in the Loop's list
};

class Poller
{
public:
    Poller(); ///< throws std::system_error: start-up only
    ~Poller();
    Poller(const Poller&) = delete;
    Poller& operator=(const Poller&) = delete;

    [[nodiscard]] bool add(int descriptor, PollTarget& target, std::uint32_t events) const;
    void change(int descriptor, PollTarget& target, std::uint32_t events) const;
    void remove(int descriptor, PollTarget& target);

    /// Waits up to `timeoutMs` (0: not at all; -1: for ever), then hands out one batch. True when it was a full one.
    bool harvest(int timeoutMs);
    [[nodiscard]] int descriptor() const { return m_descriptor; }

private:
    static constexpr std::size_t kBatch = 256;
    int m_descriptor;
    std::size_t m_at = 0;    ///< next of the batch to hand out
    std::size_t m_count = 0; ///< in the batch
    std::array<epoll_event, kBatch> m_batch{};
};

} // namespace vh::net
