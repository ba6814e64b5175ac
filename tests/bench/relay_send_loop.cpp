#include "tests/bench/relay_send_loop.h"

#include "tests/bench/relay_process.h"

#include <array>
#include <csignal>
#include <netinet/in.h>
#include <netinet/tcp.h>
#include <sched.h>
#include <stdexcept>
#include <sys/epoll.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>

namespace vh::bench
{

namespace
{

constexpr std::size_t kFrameBytes = 82; // 80 of sound behind a header of two

void pin(int core)
{
    cpu_set_t set;
    CPU_ZERO(&set);
    CPU_SET(core, &set);
    ::sched_setaffinity(0, sizeof set, &set);
}

std::array<int, 2> tcpPair(int listener, const sockaddr_in& address)
{
    const int client = ::socket(AF_INET, SOCK_STREAM, 0);
    if (::connect(client, reinterpret_cast<const sockaddr*>(&address), sizeof address) != 0)
        throw std::runtime_error("cannot connect a pair");
    const int server = ::accept4(listener, nullptr, nullptr, SOCK_NONBLOCK);
    const int on = 1;
    ::setsockopt(server, IPPROTO_TCP, TCP_NODELAY, &on, sizeof on);
    return {server, client};
}

std::vector<std::array<int, 2>> makePairs(Pairs kind, std::size_t count)
{
    std::vector<std::array<int, 2>> pairs(count);
    if (kind == Pairs::local) {
        for (auto& pair : pairs)
            if (::socketpair(AF_UNIX, SOCK_STREAM | SOCK_NONBLOCK, 0, pair.data()) != 0)
                throw std::runtime_error("no socketpair");
        return pairs;
    }
    const int listener = ::socket(AF_INET, SOCK_STREAM, 0);
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    socklen_t size = sizeof address;
    if (::bind(listener, reinterpret_cast<sockaddr*>(&address), size) != 0 || ::listen(listener, 16) != 0)
        throw std::runtime_error("cannot listen for pairs");
    ::getsockname(listener, reinterpret_cast<sockaddr*>(&address), &size);
    for (auto& pair : pairs)
        pair = tcpPair(listener, address);
    ::close(listener);
    return pairs;
}

[[noreturn]] void readAll(const std::vector<std::array<int, 2>>& pairs)
{
    const int epoll = ::epoll_create1(0);
    for (const auto& pair : pairs) {
        epoll_event event{};
        event.events = EPOLLIN;
        event.data.fd = pair[1];
        ::epoll_ctl(epoll, EPOLL_CTL_ADD, pair[1], &event);
    }
    std::array<epoll_event, 256> events{};
    std::array<char, 4096> buffer{};
    for (;;) {
        const int count = ::epoll_wait(epoll, events.data(), static_cast<int>(events.size()), -1);
        for (int i = 0; i < count; ++i)
            if (::recv(events[static_cast<std::size_t>(i)].data.fd, buffer.data(), buffer.size(), 0) <= 0)
                ::_exit(0);
    }
}

} // namespace

double sendLoopMicros(Pairs kind, std::size_t count, double seconds, int senderCore, int readerCore)
{
    raiseDescriptorLimit();
    const auto pairs = makePairs(kind, count);
    const int reader = ::fork();
    if (reader == 0) {
        pin(readerCore);
        readAll(pairs);
    }
    cpu_set_t before;
    ::sched_getaffinity(0, sizeof before, &before);
    pin(senderCore);
    const std::array<char, kFrameBytes> frame{};
    std::size_t sent = 0;
    const auto start = std::chrono::steady_clock::now();
    const auto used = cpuUsed();
    for (auto next = start; next < start + std::chrono::duration<double>(seconds);
         next += std::chrono::milliseconds(20)) {
        std::this_thread::sleep_until(next);
        for (const auto& pair : pairs)
            sent += ::send(pair[0], frame.data(), frame.size(), MSG_NOSIGNAL) > 0 ? 1 : 0;
    }
    const auto cost = cpuUsed() - used;
    ::kill(reader, SIGKILL);
    ::waitpid(reader, nullptr, 0);
    for (const auto& pair : pairs) {
        ::close(pair[0]);
        ::close(pair[1]);
    }
    ::sched_setaffinity(0, sizeof before, &before);
    return static_cast<double>(cost.count()) / 1000 / static_cast<double>(sent);
}

} // namespace vh::bench
