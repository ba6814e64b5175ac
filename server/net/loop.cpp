#include "server/net/loop.h"

#include <algorithm>
#include <atomic>
#include <cassert>
#include <climits>
#include <map>
#include <mutex>
#include <sys/eventfd.h>
#include <system_error>
#include <unistd.h>
#include <utility>

namespace vh::net
{

namespace
{

constexpr std::size_t kReadBufferBytes = 64 * 1024;
constexpr std::chrono::milliseconds kSweep{500};

struct TimerState {
    Loop::Task task;
    std::chrono::nanoseconds period{0}; ///< 0: once
};

/// What another thread rings when it has posted something.
class Bell final : public PollTarget
{
public:
    explicit Bell(Poller& poller) : m_descriptor(::eventfd(0, EFD_NONBLOCK | EFD_CLOEXEC))
    {
        if (m_descriptor < 0 || !poller.add(m_descriptor, *this, EPOLLIN))
            throw std::system_error(errno, std::generic_category(), "eventfd");
    }
    ~Bell() override { ::close(m_descriptor); } // which takes it out of the Poller
    void ring() const
    {
        const std::uint64_t one = 1;
        [[maybe_unused]] const auto written = ::write(m_descriptor, &one, sizeof one);
    }
    void onReady(std::uint32_t /*events*/) override
    {
        std::uint64_t rings = 0;
        [[maybe_unused]] const auto count = ::read(m_descriptor, &rings, sizeof rings);
    }

private:
    int m_descriptor;
};

} // namespace

struct Loop::Engine {
    explicit Engine(Poller& poller) : bell(poller) {}

    Bell bell;
    std::mutex mutex; ///< of `posted` alone
    std::vector<Task> posted;
    std::vector<Task> running; ///< what was posted before this round; its room is used again
    std::multimap<SteadyTime, std::weak_ptr<TimerState>> timers;
    std::atomic<bool> stopping{false};
    std::atomic<std::thread::id> runner{};
};

Loop::Loop() : m_readBuffer(kReadBufferBytes), m_engine(std::make_unique<Engine>(m_poller))
{
    m_sweeper = every(kSweep, [this] { sweep(); });
}

Loop::~Loop()
{
    // Targets and functions still queued may hold each other; targets take themselves out of the Poller as they go.
    m_sweeper.cancel();
    for (auto targets = std::exchange(m_kept, {}); !targets.empty(); targets.pop_back())
        targets.back()->onLoopEnds();
    m_dying.clear();
    while (!m_engine->posted.empty())
        std::exchange(m_engine->posted, {}).clear(); // what goes with a function may post once more
    m_kept.clear();
}

void Loop::run()
{
    auto& engine = *m_engine;
    engine.runner = std::this_thread::get_id();
    while (!engine.stopping.exchange(false)) {
        const bool more = runPosted();
        m_poller.harvest(runTimers(more));
    }
    engine.runner = std::thread::id{};
}

void Loop::stop()
{
    m_engine->stopping = true;
    m_engine->bell.ring();
}

void Loop::post(Task task)
{
    bool first = false;
    {
        const std::scoped_lock lock(m_engine->mutex);
        first = m_engine->posted.empty();
        m_engine->posted.push_back(std::move(task));
    }
    if (first && m_engine->runner.load() != std::this_thread::get_id())
        m_engine->bell.ring();
}

/// Runs what was posted up to now; true when these functions posted more, which has its turn after the connections.
bool Loop::runPosted()
{
    auto& engine = *m_engine;
    {
        const std::scoped_lock lock(engine.mutex);
        engine.running.swap(engine.posted);
    }
    for (auto& task : engine.running) {
        task();
        task = nullptr; // what it holds goes before the next one runs
    }
    engine.running.clear();
    const std::scoped_lock lock(engine.mutex);
    return !engine.posted.empty();
}

/// Calls the timers that are due and returns how long the Poller may wait, in milliseconds.
int Loop::runTimers(bool more)
{
    auto& timers = m_engine->timers;
    const auto due = now();
    while (!timers.empty() && timers.begin()->first <= due) {
        const auto at = timers.begin()->first;
        const auto state = timers.begin()->second.lock();
        timers.erase(timers.begin());
        if (!state)
            continue;
        if (state->period.count() > 0) {
            const auto next = at + state->period;
            timers.emplace(next > due ? next : due + state->period, state);
        }
        state->task();
        more = true; // it may have posted
    }
    if (more || m_engine->stopping)
        return 0;
    if (timers.empty())
        return -1;
    const auto wait = std::chrono::ceil<std::chrono::milliseconds>(timers.begin()->first - due).count();
    return static_cast<int>(std::min<std::int64_t>(wait, INT_MAX));
}

Loop::Timer Loop::after(std::chrono::nanoseconds wait, Task task)
{
    return startTimer(wait, std::chrono::nanoseconds(0), std::move(task));
}

Loop::Timer Loop::every(std::chrono::nanoseconds period, Task task)
{
    return startTimer(period, period, std::move(task));
}

Loop::Timer Loop::startTimer(std::chrono::nanoseconds wait, std::chrono::nanoseconds period, Task task)
{
    assert(isHere());
    auto state = std::make_shared<TimerState>(TimerState{std::move(task), period});
    m_engine->timers.emplace(std::chrono::steady_clock::now() + wait, state);
    Timer timer;
    timer.m_state = std::move(state);
    return timer;
}

bool Loop::isHere() const
{
    const auto runner = m_engine->runner.load();
    return runner == std::thread::id{} || runner == std::this_thread::get_id();
}

void Loop::keep(std::shared_ptr<PollTarget> target)
{
    assert(isHere());
    target->m_keptAt = m_kept.size();
    m_kept.push_back(std::move(target));
}

std::shared_ptr<PollTarget> Loop::release(PollTarget& target)
{
    assert(isHere());
    if (target.m_keptAt >= m_kept.size() || m_kept[target.m_keptAt].get() != &target)
        return nullptr; // the loop itself is going
    auto kept = std::move(m_kept[target.m_keptAt]);
    if (target.m_keptAt + 1 != m_kept.size()) {
        m_kept[target.m_keptAt] = std::move(m_kept.back());
        m_kept[target.m_keptAt]->m_keptAt = target.m_keptAt;
    }
    m_kept.pop_back();
    return kept;
}

void Loop::bury(PollTarget& target)
{
    auto kept = release(target);
    if (!kept)
        return;
    if (m_dying.empty())
        post([this] { std::exchange(m_dying, {}).clear(); });
    m_dying.push_back(std::move(kept));
}

void Loop::sayGoodbye()
{
    const auto all = m_kept; // held, in case one goes while it is told
    for (const auto& target : all)
        target->onStopping();
}

void Loop::sweep()
{
    now();
    // From the back, because a target may be released while it is asked.
    for (auto i = m_kept.size(); i-- > 0;)
        if (i < m_kept.size())
            m_kept[i]->onSweep(m_tick);
}

} // namespace vh::net
