#pragma once
// One thread of the relay: run() serves posted functions, timers and a Poller until stop(). A hall and everything in it
// lives on one Loop, so nothing below it locks. post() and stop() may be called from any thread; everything else from
// the loop's own thread, or before run(). The loop owns its connections (keep/release).
#include "server/net/counters.h"
#include "server/net/poller.h"

#include <functional>
#include <memory>
#include <span>
#include <thread>
#include <vector>

namespace vh::net
{

class Loop
{
public:
    using Task = std::function<void()>;

    /// Ends its timer when it goes; the function is not called after that. Belongs to the loop's thread.
    class Timer
    {
    public:
        Timer() = default;
        void cancel() { m_state.reset(); }

    private:
        friend class Loop;
        std::shared_ptr<void> m_state;
    };

    Loop();
    ~Loop();
    Loop(const Loop&) = delete;
    Loop& operator=(const Loop&) = delete;

    void run();
    void stop();
    void post(Task task);
    [[nodiscard]] Timer after(std::chrono::nanoseconds wait, Task task);
    /// Keeps its pace: a late call does not shift the following ones; missed calls are not made up for.
    [[nodiscard]] Timer every(std::chrono::nanoseconds period, Task task);

    /// True on the thread inside run(), and anywhere while nobody runs it.
    [[nodiscard]] bool isHere() const;
    /// When the batch in hand was harvested: a steady clock that costs nothing.
    [[nodiscard]] SteadyTime tick() const { return m_tick; }
    /// Reads the clock and sets tick() by it.
    SteadyTime now() { return m_tick = std::chrono::steady_clock::now(); }
    [[nodiscard]] Poller& poller() { return m_poller; }
    [[nodiscard]] Counters& counters() { return m_counters; }
    /// Where every connection of this loop reads into; valid until the next read of anybody.
    [[nodiscard]] std::span<char> readBuffer() { return m_readBuffer; }

    /// Tells every target that the relay is stopping; their lines close in their own time.
    void sayGoodbye();
    void keep(std::shared_ptr<PollTarget> target);
    /// Hands the target back; destroy it in a posted function if it may still be on the stack.
    std::shared_ptr<PollTarget> release(PollTarget& target);
    /// release(), then destroys it once the stack is gone.
    void bury(PollTarget& target);

private:
    struct Engine; ///< posted functions and timers
    bool runPosted();
    int runTimers(bool more);
    Timer startTimer(std::chrono::nanoseconds wait, std::chrono::nanoseconds period, Task task);
    void sweep();

    Poller m_poller;
    Counters m_counters;
    std::vector<char> m_readBuffer;
    std::unique_ptr<Engine> m_engine;
    std::vector<std::shared_ptr<PollTarget>> m_kept;
    std::vector<std::shared_ptr<PollTarget>> m_dying;
    SteadyTime m_tick = std::chrono::steady_clock::now();
    Timer m_sweeper;
};

/// A Loop with a thread of its own: runs from construction to destruction.
class LoopThread
{
public:
    LoopThread() : m_thread([this] { m_loop.run(); }) {}
    ~LoopThread()
    {
        m_loop.stop();
        m_thread.join();
    }
    LoopThread(const LoopThread&) = delete;
    LoopThread& operator=(const LoopThread&) = delete;
    [[nodiscard]] Loop& loop() { return m_loop; }

private:
    Loop m_loop;
    std::thread m_thread;
};

} // namespace vh::net
