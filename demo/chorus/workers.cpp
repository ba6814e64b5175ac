#include "demo/chorus/workers.h"

#include <algorithm>
#include <ctime>
#include <utility>

namespace vh::chorus
{

namespace
{

double threadSeconds()
{
    timespec used{};
    ::clock_gettime(CLOCK_THREAD_CPUTIME_ID, &used);
    return static_cast<double>(used.tv_sec) + 1e-9 * static_cast<double>(used.tv_nsec);
}

} // namespace

Workers::Workers(unsigned threads)
{
    for (unsigned i = 0; i < std::max(1U, threads); ++i)
        m_threads.emplace_back([this] { work(); });
}

Workers::~Workers()
{
    {
        const std::lock_guard lock(m_mutex);
        m_ends = true;
    }
    m_wake.notify_all();
    for (std::thread& each : m_threads)
        each.join();
}

bool Workers::submit(Job job)
{
    {
        const std::lock_guard lock(m_mutex);
        if (m_jobs.size() >= kMostWaiting)
            return false;
        m_jobs.push_back(std::move(job));
    }
    m_wake.notify_one();
    return true;
}

double Workers::busySeconds() const
{
    const std::lock_guard lock(m_mutex);
    return m_busySeconds;
}

void Workers::work()
{
    std::unique_lock lock(m_mutex);
    for (;;) {
        m_wake.wait(lock, [this] { return m_ends || !m_jobs.empty(); });
        if (m_ends)
            return;
        Job job = std::move(m_jobs.front());
        m_jobs.pop_front();
        lock.unlock();
        const double before = threadSeconds();
        job();
        job = nullptr; // what it held goes here, not under the lock
        const double took = threadSeconds() - before;
        lock.lock();
        m_busySeconds += took;
    }
}

} // namespace vh::chorus
