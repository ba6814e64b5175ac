#include "server/store/store.h"

#include "server/store/connection.h"

#include <condition_variable>
#include <deque>
#include <mutex>
#include <thread>

namespace vh::store
{

/// The queue and the thread that empties it.
class Store::Writer
{
public:
    Writer(std::unique_ptr<Connection> connection, const StoreOptions& options)
        : m_queueLimit(options.queueLimit), m_groupLimit(options.groupLimit), m_connection(std::move(connection)),
          m_tables(m_connection->statements()), m_thread([this] { loop(); })
    {
    }

    Submitted take(std::shared_ptr<Job> job, bool beyondLimit)
    {
        {
            const std::scoped_lock lock(m_mutex);
            if (m_stopping)
                return Submitted::stopped;
            if (!beyondLimit && m_queue.size() >= m_queueLimit) {
                ++m_stats.refused;
                return Submitted::full;
            }
            m_queue.push_back(std::move(job));
        }
        m_wake.notify_one();
        return Submitted::accepted;
    }

    void stop()
    {
        {
            const std::scoped_lock lock(m_mutex);
            m_stopping = true;
        }
        m_wake.notify_one();
        const std::scoped_lock lock(m_joining);
        if (m_thread.joinable())
            m_thread.join();
    }

    StoreStats stats() const
    {
        const std::scoped_lock lock(m_mutex);
        StoreStats stats = m_stats;
        stats.waiting = m_queue.size();
        return stats;
    }

private:
    using Group = std::vector<std::shared_ptr<Job>>;

    void loop()
    {
        for (Group group = nextGroup(); !group.empty(); group = nextGroup()) {
            const bool onDisk = commit(group);
            {
                const std::scoped_lock lock(m_mutex);
                m_stats.jobs += group.size();
                ++(onDisk ? m_stats.commits : m_stats.failedCommits);
                m_stats.lastCommitFailed = !onDisk;
            }
            for (auto& job : group) {
                Job& one = *job;
                one.answer(std::move(job));
            }
        }
        m_connection.reset(); // closing the file moves the log into it
    }

    /// What waits, up to the group limit; waits for the first. Empty: stopped, and nothing is left.
    Group nextGroup()
    {
        std::unique_lock lock(m_mutex);
        m_wake.wait(lock, [this] { return m_stopping || !m_queue.empty(); });
        const auto count = static_cast<std::ptrdiff_t>(std::min(m_groupLimit, m_queue.size()));
        Group group(std::make_move_iterator(m_queue.begin()), std::make_move_iterator(m_queue.begin() + count));
        m_queue.erase(m_queue.begin(), m_queue.begin() + count);
        return group;
    }

    bool commit(Group& group)
    {
        try {
            m_connection->exec("BEGIN IMMEDIATE");
            for (auto& job : group)
                workAlone(*job);
            m_connection->exec("COMMIT");
        } catch (const std::exception& error) {
            rollBack();
            for (auto& job : group)
                job->failWith({"store-failed", std::string("It could not be stored: ") + error.what() + ".", {}});
            return false;
        }
        scrub();
        return true;
    }

    /// One job in its savepoint. Throws only when the whole transaction is lost.
    void workAlone(Job& job)
    {
        m_connection->exec("SAVEPOINT job");
        bool keep = false;
        try {
            keep = job.work(m_tables);
        } catch (const std::exception& error) {
            if (!m_connection->inTransaction())
                throw;
            job.failWith({"store-failed", std::string("It could not be stored: ") + error.what() + ".", {}});
        }
        if (!keep)
            m_connection->exec("ROLLBACK TO job");
        m_connection->exec("RELEASE job");
    }

    void rollBack()
    {
        try {
            if (m_connection->inTransaction())
                m_connection->exec("ROLLBACK");
        } catch (const std::exception&) {
            // Nothing is promised to anybody, and the next BEGIN says whether the file can be used again.
        }
    }

    /// After a deletion that must leave no bytes behind. Stays due while a backup is reading, or the disk refuses.
    void scrub()
    {
        if (!m_connection->statements().erased())
            return;
        try {
            if (m_connection->truncateLog())
                m_connection->statements().erasedForGood();
        } catch (const std::exception&) {
            // The rows are gone and committed; the log is truncated after the next group, or when the store is opened.
        }
    }

    const std::size_t m_queueLimit;
    const std::size_t m_groupLimit;
    mutable std::mutex m_mutex; // guards the next four
    std::condition_variable m_wake;
    std::deque<std::shared_ptr<Job>> m_queue;
    StoreStats m_stats;
    bool m_stopping = false;

    std::unique_ptr<Connection> m_connection; // the writer thread's
    Tables m_tables;
    std::mutex m_joining;
    std::thread m_thread; // last: everything above is there when it starts
};

Store::Store(std::unique_ptr<Writer> writer) : m_writer(std::move(writer)) {}

Store::~Store()
{
    stop();
}

Store::Opening Store::open(const StoreOptions& options)
{
    auto opening = Connection::open(options, schemaSteps());
    if (!opening.connection)
        return {opening.result.outcome, std::move(opening.result.message), nullptr};
    auto writer = std::make_unique<Writer>(std::move(opening.connection), options);
    return {opening.result.outcome, std::move(opening.result.message),
            std::unique_ptr<Store>(new Store(std::move(writer)))};
}

Submitted Store::take(std::shared_ptr<Job> job, bool beyondLimit)
{
    return m_writer->take(std::move(job), beyondLimit);
}

void Store::stop()
{
    m_writer->stop();
}

StoreStats Store::stats() const
{
    return m_writer->stats();
}

} // namespace vh::store
