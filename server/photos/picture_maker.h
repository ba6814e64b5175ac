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
    ~PictureMaker(); ///< those that wait are answered with picture-unmade
    PictureMaker(const PictureMaker&) = delete;
    PictureMaker& operator=(const PictureMaker&) = delete;

    /// False when too many wait: nothing was taken.
    [[nodiscard]] bool submit(std::vector<std::uint8_t> bytes, const Wish& wish, Done done, Poster post);

    /// Of processes that ended other than with an answer.
    [[nodiscard]] std::uint64_t broken() const { return m_broken.load(std::memory_order_relaxed); }

private:
    struct Job {
        std::vector<std::uint8_t> bytes;
        Wish wish;
        Done done;
        Poster post;
    };
    void work();
    Result<Remade> make(const Job& job);

    std::filesystem::path m_program;
    std::mutex m_mutex;
    std::condition_variable m_changed;
    std::deque<Job> m_waiting;
    bool m_stopping = false;
    std::atomic<std::uint64_t> m_broken{0};
    std::thread m_thread;
};

} // namespace vh::photos
