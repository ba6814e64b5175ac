#pragma once
// The relay's memory: one SQLite file, one thread that writes, a bounded queue in front of it.
// Jobs that wait are committed together, each in a savepoint of its own: a job that fails leaves nothing behind and
// hurts nobody. An answer leaves only after the COMMIT that holds its work is on disk (synchronous=FULL); when the
// COMMIT fails, everybody in the group hears "store-failed". Jobs are run, and answers posted, in the order of
// submit(). Thread: submit() and run() from any; work runs on the writer; answers run wherever the caller's Poster puts
// them. Ownership: the Store owns the file, held against a second relay by a lock on FILE.lock for as long as it lives.
#include "common/base/result.h"
#include "server/store/rows.h"
#include "server/store/schema.h"
#include "server/store/tables.h"

#include <filesystem>
#include <functional>
#include <future>
#include <memory>
#include <type_traits>

namespace vh::store
{

enum class Submitted : std::uint8_t {
    accepted,
    full,    ///< the queue is at its limit: say "busy, try again" to the client; nothing was taken
    stopped, ///< after stop(), nothing was taken
};

/// Runs a function on the caller's loop, e.g. [&io](auto f) { boost::asio::post(io, std::move(f)); }
using Poster = std::function<void(std::function<void()>)>;

struct StoreOptions {
    std::filesystem::path file;
    std::string vfs;               ///< name of a registered SQLite VFS; empty: the system's
    std::size_t queueLimit = 4096; ///< jobs waiting
    std::size_t groupLimit = 256;  ///< jobs in one COMMIT
    Millis busyTimeout{5000};      ///< a backup or `group add` beside us holds the file no longer than this
    /// A relay holds the file alone. A command line tool beside a running relay goes `alongside` it.
    enum class Hold : std::uint8_t { alone, alongside } hold = Hold::alone;
};

struct StoreStats {
    std::uint64_t jobs = 0;    ///< answered, well or not
    std::uint64_t commits = 0; ///< groups on disk
    std::uint64_t failedCommits = 0;
    bool lastCommitFailed = false;
    std::uint64_t refused = 0; ///< full
    std::size_t waiting = 0;
};

class Store
{
public:
    /// What opening came to. `store` is there for created, upgraded and current only; `message` is for the operator.
    struct Opening {
        Opened outcome = Opened::failed;
        std::string message;
        std::unique_ptr<Store> store;
    };
    static Opening open(const StoreOptions& options);

    Store(const Store&) = delete;
    Store& operator=(const Store&) = delete;
    ~Store(); ///< stop()

    /// `work`: Result<T>(Tables&), on the writer thread. `done`: void(Result<T>), by `post`; never called when this
    /// returns anything but accepted, else exactly once. A lambda names its type: [=](Tables& t) -> Result<PersonRow>
    /// {}. What `work` and `done` hold is let go where `done` runs.
    template <class Work, class Done>
    Submitted submit(Work work, Done done, Poster post);

    /// Does `work` and waits for its COMMIT; not held up by a full queue. For start-up, command lines and tests: never
    /// from a loop, never from inside a job. Error "store-stopped" after stop().
    template <class Work>
    auto run(Work work) -> std::invoke_result_t<Work&, Tables&>;

    /// No more jobs from now on; those accepted are done and answered before this returns. Twice is once.
    void stop();

    [[nodiscard]] StoreStats stats() const;

private:
    /// A job as the writer sees it: do() inside a savepoint, then, after the COMMIT, exactly one answer().
    class Job
    {
    public:
        Job() = default;
        Job(const Job&) = delete;
        Job& operator=(const Job&) = delete;
        virtual ~Job() = default;
        /// True: keep what was written. May throw.
        virtual bool work(Tables& tables) = 0;
        virtual void failWith(const Error& error) = 0;
        virtual void answer(std::shared_ptr<Job> self) = 0;
    };
    template <class Work, class Done>
    class TypedJob;
    class Writer;

    explicit Store(std::unique_ptr<Writer> writer);
    Submitted take(std::shared_ptr<Job> job, bool beyondLimit);

    std::unique_ptr<Writer> m_writer;
};

template <class Work, class Done>
class Store::TypedJob final : public Job
{
public:
    using Answer = std::invoke_result_t<Work&, Tables&>;

    TypedJob(Work work, Done done, Poster post)
        : m_work(std::move(work)), m_done(std::move(done)), m_post(std::move(post))
    {
    }
    bool work(Tables& tables) override
    {
        m_answer.emplace(m_work(tables));
        return m_answer->has_value();
    }
    void failWith(const Error& error) override { m_answer.emplace(tl::unexpected<Error>(error)); }
    void answer(std::shared_ptr<Job> self) override
    {
        // The job travels with its answer, so that nothing the caller captured is destroyed on the writer thread.
        const Poster post = std::move(m_post);
        post(
            [self = std::static_pointer_cast<TypedJob>(std::move(self))] { self->m_done(std::move(*self->m_answer)); });
    }

private:
    Work m_work;
    Done m_done;
    Poster m_post;
    std::optional<Answer> m_answer;
};

template <class Work, class Done>
Submitted Store::submit(Work work, Done done, Poster post)
{
    return take(std::make_shared<TypedJob<Work, Done>>(std::move(work), std::move(done), std::move(post)), false);
}

template <class Work>
auto Store::run(Work work) -> std::invoke_result_t<Work&, Tables&>
{
    using Answer = std::invoke_result_t<Work&, Tables&>;
    auto promise = std::make_shared<std::promise<Answer>>();
    auto answer = promise->get_future();
    auto done = [promise](Answer result) { promise->set_value(std::move(result)); };
    const Poster here = [](const std::function<void()>& function) { function(); };
    if (take(std::make_shared<TypedJob<Work, decltype(done)>>(std::move(work), std::move(done), here), true) !=
        Submitted::accepted)
        return fail("store-stopped", "The store has been stopped.");
    return answer.get();
}

} // namespace vh::store
