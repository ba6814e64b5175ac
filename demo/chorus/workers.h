#pragma once
// A few threads for what takes milliseconds, so that no loop waits for it. Jobs run in the order in which they came,
// each to its end; what has not begun when the workers go is dropped. At most kMostWaiting jobs wait: a home has one at
// a time, so that is how many homes can speak. Thread: any for submit().
#include <condition_variable>
#include <deque>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

namespace vh::chorus
{

class Workers
{
public:
    using Job = std::function<void()>;
    static constexpr std::size_t kMostWaiting = 4096;

    explicit Workers(unsigned threads);
    ~Workers();
    Workers(const Workers&) = delete;
    Workers& operator=(const Workers&) = delete;

    /// False when too many wait already; the job is not done.
    [[nodiscard]] bool submit(Job job);
    /// Processor time that all jobs so far have taken.
    [[nodiscard]] double busySeconds() const;

private:
    void work();

    mutable std::mutex m_mutex;
    std::condition_variable m_wake;
    std::deque<Job> m_jobs;
    double m_busySeconds = 0;
    bool m_ends = false;
    std::vector<std::thread> m_threads;
};

} // namespace vh::chorus
