#include "server/photos/one_life.h"

#include <algorithm>
#include <array>
#include <cerrno>
#include <csignal>
#include <utility>

#include <fcntl.h>
#include <poll.h>
#include <spawn.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

extern "C" { // glibc 2.36 does not say so itself
#include <sys/pidfd.h>
}

namespace vh::photos
{

namespace
{

using SteadyTime = std::chrono::steady_clock::time_point;

/// For poll(): 0 when it is over.
int millisecondsTo(SteadyTime until)
{
    const auto left = std::chrono::ceil<std::chrono::milliseconds>(until - std::chrono::steady_clock::now());
    return static_cast<int>(std::max<std::chrono::milliseconds::rep>(left.count(), 0));
}

class Descriptor
{
public:
    Descriptor() = default;
    explicit Descriptor(int fd) : m_fd(fd) {}
    ~Descriptor() { close(); }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    void close()
    {
        if (m_fd >= 0)
            ::close(std::exchange(m_fd, -1));
    }
    void take(int fd)
    {
        close();
        m_fd = fd;
    }
    [[nodiscard]] int fd() const { return m_fd; }

private:
    int m_fd = -1;
};

/// A stream in each direction: sockets, since writing to one whose other end has gone can be asked to raise no signal.
struct Ends {
    Descriptor ours;
    Descriptor theirs;
    bool make()
    {
        std::array<int, 2> both{};
        if (::socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, both.data()) != 0)
            return false;
        ours.take(both[0]);
        theirs.take(both[1]);
        return ::fcntl(ours.fd(), F_SETFL, O_NONBLOCK) == 0;
    }
};

/// A started program: killed and buried when this goes, unless it has ended.
class Life
{
public:
    Life() = default;
    ~Life()
    {
        if (m_pid <= 0)
            return;
        ::kill(m_pid, SIGKILL);
        (void)bury();
    }
    Life(const Life&) = delete;
    Life& operator=(const Life&) = delete;

    bool start(const std::filesystem::path& program, int in, int out)
    {
        posix_spawn_file_actions_t actions;
        posix_spawn_file_actions_init(&actions);
        posix_spawn_file_actions_adddup2(&actions, in, STDIN_FILENO);
        posix_spawn_file_actions_adddup2(&actions, out, STDOUT_FILENO);
        posix_spawn_file_actions_addclosefrom_np(&actions, STDERR_FILENO);
        std::string path = program.string();
        std::array<char*, 2> arguments{path.data(), nullptr};
        std::array<char*, 1> environment{nullptr};
        const int failed = ::posix_spawn(&m_pid, path.c_str(), &actions, nullptr, arguments.data(), environment.data());
        posix_spawn_file_actions_destroy(&actions);
        if (failed != 0)
            m_pid = 0;
        return failed == 0;
    }
    /// True if it ended by itself by then and all was well.
    bool endsWell(SteadyTime until)
    {
        const Descriptor life(::pidfd_open(m_pid, 0));
        pollfd ended{life.fd(), POLLIN, 0};
        while (life.fd() >= 0 && ::poll(&ended, 1, millisecondsTo(until)) < 0 && errno == EINTR) {
        }
        return ended.revents != 0 && bury();
    }

private:
    bool bury()
    {
        int status = 0;
        while (::waitpid(m_pid, &status, 0) < 0)
            if (errno != EINTR)
                break;
        m_pid = 0;
        return WIFEXITED(status) && WEXITSTATUS(status) == 0;
    }

    pid_t m_pid = 0;
};

/// What is still to be given, in pieces.
struct Giving {
    std::vector<std::span<const std::byte>> pieces;
    std::size_t at = 0;
    [[nodiscard]] bool done() const { return at == pieces.size(); }
    /// False: nobody takes it any more.
    bool some(int fd)
    {
        while (!done()) {
            auto& piece = pieces[at];
            if (piece.empty()) {
                ++at;
                continue;
            }
            const ssize_t put = ::send(fd, piece.data(), piece.size(), MSG_NOSIGNAL);
            if (put < 0)
                return errno == EAGAIN || errno == EINTR;
            piece = piece.subspan(static_cast<std::size_t>(put));
        }
        return true;
    }
};

enum class Taken : std::uint8_t { some, end, tooMuch };

Taken take(int fd, std::vector<std::uint8_t>& out, std::size_t most)
{
    std::array<std::uint8_t, 65'536> piece; // NOLINT(cppcoreguidelines-pro-type-member-init): read into
    for (;;) {
        const ssize_t got = ::recv(fd, piece.data(), piece.size(), 0);
        if (got == 0 || (got < 0 && errno != EAGAIN && errno != EINTR))
            return Taken::end;
        if (got < 0)
            return Taken::some;
        out.insert(out.end(), piece.begin(), piece.begin() + got);
        if (out.size() > most)
            return Taken::tooMuch;
    }
}

/// Gives and takes until the other side has said all; false: too long, or too much.
bool exchange(Descriptor& in, Descriptor& out, Giving giving, std::vector<std::uint8_t>& taken, std::size_t most,
              SteadyTime until)
{
    for (;;) {
        if (in.fd() >= 0 && (!giving.some(in.fd()) || giving.done()))
            in.close(); // the end of the stream
        const int left = millisecondsTo(until);
        if (left == 0)
            return false;
        std::array<pollfd, 2> both{{{out.fd(), POLLIN, 0}, {in.fd(), POLLOUT, 0}}};
        if (::poll(both.data(), in.fd() >= 0 ? 2 : 1, left) < 0 && errno != EINTR)
            return false;
        if (both[0].revents == 0)
            continue;
        const Taken now = take(out.fd(), taken, most);
        if (now != Taken::some)
            return now == Taken::end;
    }
}

} // namespace

std::optional<std::vector<std::uint8_t>> oneLife(const std::filesystem::path& program,
                                                 std::vector<std::span<const std::byte>> in, std::size_t most,
                                                 std::chrono::milliseconds patience)
{
    const SteadyTime until = std::chrono::steady_clock::now() + patience;
    Ends giving;
    Ends taking;
    if (!giving.make() || !taking.make())
        return std::nullopt;
    Life life;
    if (!life.start(program, giving.theirs.fd(), taking.theirs.fd()))
        return std::nullopt;
    giving.theirs.close();
    taking.theirs.close();
    std::vector<std::uint8_t> out;
    if (!exchange(giving.ours, taking.ours, {std::move(in), 0}, out, most, until) || !life.endsWell(until))
        return std::nullopt;
    return out;
}

} // namespace vh::photos
