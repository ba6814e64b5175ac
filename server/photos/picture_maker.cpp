#include "server/photos/picture_maker.h"

#include "server/photos/locked_in.h"
#include "server/photos/one_life.h"

#include <array>

namespace vh::photos
{

namespace
{

/// One white pixel (PNG, third edition, 5.6 and 11: IHDR, IDAT, IEND).
constexpr std::array<std::uint8_t, 67> kOnePixel{
    0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A, 0x00, 0x00, 0x00, 0x0D, 0x49, 0x48, 0x44, 0x52, 0x00,
    0x00, 0x00, 0x01, 0x00, 0x00, 0x00, 0x01, 0x08, 0x00, 0x00, 0x00, 0x00, 0x3A, 0x7E, 0x9B, 0x55, 0x00,
    0x00, 0x00, 0x0A, 0x49, 0x44, 0x41, 0x54, 0x78, 0xDA, 0x63, 0xF8, 0x0F, 0x00, 0x01, 0x01, 0x01, 0x00,
    0x1C, 0xB0, 0x8C, 0x99, 0x00, 0x00, 0x00, 0x00, 0x49, 0x45, 0x4E, 0x44, 0xAE, 0x42, 0x60, 0x82};

} // namespace

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
    stop();
}

void PictureMaker::stop()
{
    {
        const std::lock_guard lock(m_mutex);
        m_stopping = true;
    }
    m_changed.notify_one();
    if (!m_thread.joinable())
        return;
    m_thread.join();
    for (Job& job : m_waiting)
        job.post([done = std::move(job.done)] { done(tl::unexpected<Error>(unmade())); });
    m_waiting.clear();
}

Result<void> PictureMaker::tryOut() const
{
    std::error_code none;
    if (!std::filesystem::is_regular_file(m_program, none))
        return fail("pictures-off", m_program.string() + " is not there");
    const std::string line = errandLine({});
    const auto answer = oneLife(m_program, {std::as_bytes(std::span(line)), std::as_bytes(std::span(kOnePixel))},
                                kMostAnswerBytes, std::chrono::seconds(kMostSeconds));
    if (!answer || !readAnswer(*answer))
        return fail("pictures-off", m_program.string() + " cannot be started, or does not do its work here");
    return {};
}

PictureMaker::Counts PictureMaker::counts() const
{
    return {m_made.load(std::memory_order_relaxed), m_refused.load(std::memory_order_relaxed),
            m_broken.load(std::memory_order_relaxed)};
}

void PictureMaker::count(const Result<Remade>& made)
{
    // A process that is not itself any more may say anything: what was not an answer is a break, too.
    auto& counter = made ? m_made : made.error().code == unmade().code ? m_broken : m_refused;
    counter.fetch_add(1, std::memory_order_relaxed);
}

bool PictureMaker::submit(std::vector<std::uint8_t> bytes, const Wish& wish, Done done, Poster post)
{
    {
        const std::lock_guard lock(m_mutex);
        if (m_stopping || m_waiting.size() >= kMostWaiting)
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
        auto made = make(job);
        count(made);
        job.bytes = {}; // `done` may run much later
        job.post([done = std::move(job.done), made = std::move(made)] { done(made); });
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
    if (!answer)
        return tl::unexpected<Error>(unmade());
    return readAnswer(*answer);
}

} // namespace vh::photos
