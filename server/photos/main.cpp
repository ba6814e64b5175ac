// voicehall-photos: one picture a life. Reads an errand from descriptor 0, answers on descriptor 1 (errand.h), locked
// in from before the first byte (locked_in.h). Whatever is wrong with the picture, this process is all that it can
// hurt.
#include "server/photos/errand.h"
#include "server/photos/locked_in.h"

#include <cstdlib>
#include <fstream>
#include <string_view>

#include <unistd.h>

namespace
{

using vh::photos::kMostErrandBytes;

/// Everything up to the end; empty if it is too much, or cannot be read.
std::vector<std::uint8_t> readAll()
{
    std::vector<std::uint8_t> bytes(kMostErrandBytes + 1);
    std::size_t size = 0;
    while (size < bytes.size()) {
        const ssize_t got = ::read(STDIN_FILENO, bytes.data() + size, bytes.size() - size);
        if (got < 0)
            return {};
        if (got == 0)
            break;
        size += static_cast<std::size_t>(got);
    }
    bytes.resize(size <= kMostErrandBytes ? size : 0);
    return bytes;
}

bool writeAll(std::span<const std::uint8_t> bytes)
{
    while (!bytes.empty()) {
        const ssize_t put = ::write(STDOUT_FILENO, bytes.data(), bytes.size());
        if (put <= 0)
            return false;
        bytes = bytes.subspan(static_cast<std::size_t>(put));
    }
    return true;
}

#ifdef VH_PHOTOS_BREAK
/// Only so much more than it has before it has seen anything: tests prove by it what no picture takes.
std::size_t tightMemory()
{
    std::size_t pages = 0;
    std::ifstream("/proc/self/statm") >> pages;
    return pages * static_cast<std::size_t>(::sysconf(_SC_PAGESIZE)) + (std::size_t{64} << 20);
}

/// The build that tests use to see what a break-in or a fault of the libraries would do. It breaks on these words.
void breakOnPurpose(std::span<const std::uint8_t> bytes)
{
    const std::string_view text(reinterpret_cast<const char*>(bytes.data()), bytes.size());
    if (text.find("please crash") != std::string_view::npos)
        std::abort();
    if (text.find("please hang") != std::string_view::npos)
        for (volatile bool more = true; more;) {
        }
    if (text.find("please open a file") != std::string_view::npos)
        (void)::access("/etc/passwd", R_OK);
    if (text.find("please take memory") != std::string_view::npos)
        for (;;)
            *static_cast<volatile char*>(std::malloc(std::size_t{1} << 20)) = 1; // NOLINT: that is the point
    if (text.find("please lie") != std::string_view::npos) {
        constexpr std::string_view kLie = "jpeg 99999 1\nthis is no picture";
        (void)writeAll({reinterpret_cast<const std::uint8_t*>(kLie.data()), kLie.size()});
        ::_exit(0);
    }
}
#endif

} // namespace

int main()
{
#ifdef VH_PHOTOS_BREAK
    const std::size_t most = tightMemory();
#else
    const std::size_t most = vh::photos::kMostMemory;
#endif
    if (!vh::photos::lockIn(most))
        return 2;
    const std::vector<std::uint8_t> in = readAll();
    const auto errand = vh::photos::readErrand(in);
    if (!errand)
        return 3;
#ifdef VH_PHOTOS_BREAK
    breakOnPurpose(errand->bytes);
#endif
    return writeAll(vh::photos::answerOf(vh::photos::remake(errand->bytes, errand->wish))) ? 0 : 4;
}
