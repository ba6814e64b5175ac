#pragma once
// The relay's side of making pictures anew: starts a `voicehall-photos` for each picture, one at a time, gives it
// kMostSeconds, and reads what it answers. A picture that breaks it is lost, and nothing else. Thread: submit() from
// any; a thread of its own works; `done` runs wherever the caller's poster puts it, exactly once for each accepted
// picture, with what was made or why not (remake.h, errand.h).
#include "server/photos/errand.h"

#include <atomic>
#include <condition_variable>
#include <deque>
#include <filesystem>
#include <functional>
#include <mutex>
#include <thread>

namespace vh::photos
{

/// Beside the program that is running.
std::filesystem::path photosProgram();

class PictureMaker
{
public:
    using Done = std::function<void(const Result<Remade>&)>;
    using Poster = std::function<void(std::function<void()>)>;
    /// Pictures that wait; more are refused, so that memory has a limit: kMostWaiting * kMostBytesIn.
    static constexpr std::size_t kMostWaiting = 12;

    explicit PictureMaker(std::filesystem::path program);
    ~PictureMaker(); ///< stop()
    PictureMaker(const PictureMaker&) = delete;
    PictureMaker& operator=(const PictureMaker&) = delete;

    /// False when too many wait: nothing was taken.
    [[nodiscard]] bool submit(std::vector<std::uint8_t> bytes, const Wish& wish, Done done, Poster post);

    /// No more are taken; the one in hand is done, those that wait are answered with picture-unmade. Twice is once.
    void stop();

    /// Whether a process can be started and does what it should, tried with a picture of one pixel; if not, why, for
    /// the operator. Blocks, kMostSeconds at most.
    [[nodiscard]] Result<void> tryOut() const;

    struct Counts {
        std::uint64_t made = 0;
        std::uint64_t refused = 0; ///< no pictures, or none that can be shown
        std::uint64_t broken = 0;  ///< processes that ended other than with an answer
    };
    [[nodiscard]] Counts counts() const;

private:
    struct Job {
        std::vector<std::uint8_t> bytes;
        Wish wish;
        Done done;
        Poster post;
    };
    void work();
    Result<Remade> make(const Job& job);
    void count(const Result<Remade>& made);

    std::filesystem::path m_program;
    std::mutex m_mutex;
    std::condition_variable m_changed;
    std::deque<Job> m_waiting;
    bool m_stopping = false;
    std::atomic<std::uint64_t> m_made{0};
    std::atomic<std::uint64_t> m_refused{0};
    std::atomic<std::uint64_t> m_broken{0};
    std::thread m_thread;
};

} // namespace vh::photos
