#include "server/net/loop.h"

#include <atomic>
#include <boost/asio/io_context.hpp>
#include <boost/asio/posix/stream_descriptor.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/steady_timer.hpp>
#include <cassert>

namespace vh::net
{

namespace
{

namespace asio = boost::asio;
constexpr std::size_t kReadBufferBytes = 64 * 1024;
constexpr std::chrono::milliseconds kSweep{500};

struct TimerState {
    TimerState(asio::io_context& context, Loop::Task function) : timer(context), task(std::move(function)) {}
    asio::steady_timer timer;
    Loop::Task task;
    std::chrono::nanoseconds period{0}; ///< 0: once
};

void arm(const std::shared_ptr<TimerState>& state)
{
    state->timer.async_wait([weak = std::weak_ptr(state)](const boost::system::error_code& error) {
        const auto alive = weak.lock();
        if (error || !alive)
            return;
        if (alive->period.count() > 0) {
            auto next = alive->timer.expiry() + alive->period;
            if (const auto now = std::chrono::steady_clock::now(); next < now)
                next = now + alive->period;
            alive->timer.expires_at(next);
            arm(alive);
        }
        alive->task();
    });
}

} // namespace

struct Loop::Engine {
    explicit Engine(int poller) : descriptor(context, poller) {}
    ~Engine() { descriptor.release(); } // the Poller closes it

    asio::io_context context{1};
    asio::posix::stream_descriptor descriptor;
    std::atomic<std::thread::id> runner{};
};

Loop::Loop() : m_readBuffer(kReadBufferBytes), m_engine(std::make_unique<Engine>(m_poller.descriptor()))
{
    watchPoller();
    m_sweeper = every(kSweep, [this] { sweep(); });
}

Loop::~Loop()
{
    // Targets and functions still queued may hold each other; targets take themselves out of the Poller as they go.
    m_sweeper.cancel();
    for (auto targets = std::exchange(m_kept, {}); !targets.empty(); targets.pop_back())
        targets.back()->onLoopEnds();
    m_dying.clear();
    m_engine.reset();
    m_kept.clear();
}

void Loop::run()
{
    m_engine->runner = std::this_thread::get_id();
    const auto work = asio::make_work_guard(m_engine->context);
    m_engine->context.restart();
    m_engine->context.run();
    m_engine->runner = std::thread::id{};
}

void Loop::stop()
{
    // Posted, so that a stop() that comes before run() is not forgotten.
    post([this] { m_engine->context.stop(); });
}

void Loop::post(Task task)
{
    asio::post(m_engine->context, std::move(task));
}

Loop::Timer Loop::after(std::chrono::nanoseconds wait, Task task)
{
    auto state = std::make_shared<TimerState>(m_engine->context, std::move(task));
    state->timer.expires_after(wait);
    arm(state);
    Timer timer;
    timer.m_state = std::move(state);
    return timer;
}

Loop::Timer Loop::every(std::chrono::nanoseconds period, Task task)
{
    auto state = std::make_shared<TimerState>(m_engine->context, std::move(task));
    state->period = period;
    state->timer.expires_after(period);
    arm(state);
    Timer timer;
    timer.m_state = std::move(state);
    return timer;
}

bool Loop::isHere() const
{
    const auto runner = m_engine->runner.load();
    return runner == std::thread::id{} || runner == std::this_thread::get_id();
}

void Loop::watchPoller()
{
    m_engine->descriptor.async_wait(asio::posix::stream_descriptor::wait_read,
                                    [this](const boost::system::error_code& error) {
                                        if (error)
                                            return;
                                        now();
                                        m_poller.harvest(0);
                                        watchPoller();
                                    });
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
