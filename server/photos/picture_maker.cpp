#include "server/photos/picture_maker.h"

#include "server/photos/locked_in.h"
#include "server/photos/one_life.h"

namespace vh::photos
{

std::filesystem::path photosProgram()
{
    std::error_code none;
    const auto self = std::filesystem::read_symlink("/proc/self/exe", none);
    return self.parent_path() / "voicehall-photos";
}

PictureMaker::PictureMaker(std::filesystem::path program) : m_program(std::move(program)), m_thread([this] { work(); })
{
}

PictureMaker::~PictureMaker()
{
    {
        const std::lock_guard lock(m_mutex);
        m_stopping = true;
    }
    m_changed.notify_one();
    m_thread.join();
    for (Job& job : m_waiting)
        job.post([done = std::move(job.done)] { done(tl::unexpected<Error>(unmade())); });
}

bool PictureMaker::submit(std::vector<std::uint8_t> bytes, const Wish& wish, Done done, Poster post)
{
    {
        const std::lock_guard lock(m_mutex);
        if (m_waiting.size() >= kMostWaiting)
            return false;
        m_waiting.push_back({std::move(bytes), wish, std::move(done), std::move(post)});
    }
    m_changed.notify_one();
    return true;
}

void PictureMaker::work()
{
    std::unique_lock lock(m_mutex);
    for (;;) {
        m_changed.wait(lock, [this] { return m_stopping || !m_waiting.empty(); });
        if (m_stopping)
            return;
        Job job = std::move(m_waiting.front());
        m_waiting.pop_front();
        lock.unlock();
        job.post([done = std::move(job.done), made = make(job)] { done(made); });
        lock.lock();
    }
}

/// A file that is nothing is told at once; only what may be a picture is worth a process.
Result<Remade> PictureMaker::make(const Job& job)
{
    if (!formatOf(job.bytes))
        return tl::unexpected<Error>(unknown());
    if (job.bytes.size() > kMostBytesIn)
        return tl::unexpected<Error>(tooLarge());
    const std::string line = errandLine(job.wish);
    const auto answer = oneLife(m_program, {std::as_bytes(std::span(line)), std::as_bytes(std::span(job.bytes))},
                                kMostAnswerBytes, std::chrono::seconds(kMostSeconds));
    if (!answer) {
        m_broken.fetch_add(1, std::memory_order_relaxed);
        return tl::unexpected<Error>(unmade());
    }
    return readAnswer(*answer);
}

} // namespace vh::photos
