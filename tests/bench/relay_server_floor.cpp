#include "common/wire/ws_frame.h"
#include "server/net/upgrade.h"
#include "tests/bench/relay_servers.h"

#include <array>
#include <cstring>
#include <memory>
#include <netinet/in.h>
#include <netinet/tcp.h>
#include <sys/epoll.h>
#include <sys/socket.h>
#include <unistd.h>
#include <vector>

namespace vh::bench
{

namespace
{

struct Line {
    int descriptor = -1;
    bool open = false;
    bool leads = false;
};

class Floor
{
public:
    Floor();
    int run();

private:
    void accept();
    void read(Line& line);
    void upgrade(Line& line, std::string_view head);
    void publish(std::string_view payload, wire::Opcode opcode);
    bool command();

    int m_epoll = ::epoll_create1(EPOLL_CLOEXEC);
    int m_listener = ::socket(AF_INET, SOCK_STREAM | SOCK_NONBLOCK | SOCK_CLOEXEC, 0);
    std::vector<std::unique_ptr<Line>> m_lines;
    std::array<char, 65536> m_buffer{};
    unsigned long long m_frames = 0;
    unsigned long long m_refused = 0;
    unsigned long long m_readings = 0;
};

void add(int epoll, int descriptor, void* pointer)
{
    epoll_event event{};
    event.events = EPOLLIN;
    event.data.ptr = pointer;
    ::epoll_ctl(epoll, EPOLL_CTL_ADD, descriptor, &event);
}

Floor::Floor()
{
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    socklen_t size = sizeof address;
    ::bind(m_listener, reinterpret_cast<sockaddr*>(&address), size);
    ::listen(m_listener, 4096);
    ::getsockname(m_listener, reinterpret_cast<sockaddr*>(&address), &size);
    add(m_epoll, m_listener, &m_listener);
    add(m_epoll, 0, nullptr);
    std::printf("port port=%u\n", ntohs(address.sin_port));
    std::fflush(stdout);
}

int Floor::run()
{
    std::array<epoll_event, 256> events{};
    for (;;) {
        const int count = ::epoll_wait(m_epoll, events.data(), static_cast<int>(events.size()), -1);
        for (int i = 0; i < count; ++i) {
            void* const pointer = events[static_cast<std::size_t>(i)].data.ptr;
            if (!pointer) {
                if (!command())
                    return 0;
            } else if (pointer == &m_listener) {
                accept();
            } else {
                read(*static_cast<Line*>(pointer));
            }
        }
    }
}

void Floor::accept()
{
    const int descriptor = ::accept4(m_listener, nullptr, nullptr, SOCK_NONBLOCK | SOCK_CLOEXEC);
    if (descriptor < 0)
        return;
    const int on = 1;
    ::setsockopt(descriptor, IPPROTO_TCP, TCP_NODELAY, &on, sizeof on);
    m_lines.push_back(std::make_unique<Line>());
    m_lines.back()->descriptor = descriptor;
    add(m_epoll, descriptor, m_lines.back().get());
}

/// The load of this bench sends small, whole frames, so whatever is not whole is simply not supported here.
void Floor::read(Line& line)
{
    const auto count = ::recv(line.descriptor, m_buffer.data(), m_buffer.size(), 0);
    if (count <= 0) {
        ::epoll_ctl(m_epoll, EPOLL_CTL_DEL, line.descriptor, nullptr);
        ::close(line.descriptor);
        line.open = false;
        return;
    }
    auto* at = m_buffer.data();
    auto* const end = at + count;
    if (!line.open) {
        upgrade(line, {at, static_cast<std::size_t>(count)});
        return;
    }
    while (end - at >= 6) {
        const auto opcode = static_cast<wire::Opcode>(at[0] & 0x0F);
        const std::size_t length = static_cast<unsigned char>(at[1]) & 0x7F;
        for (std::size_t i = 0; i < length; ++i)
            at[6 + i] = static_cast<char>(at[6 + i] ^ at[2 + i % 4]);
        const std::string_view payload(at + 6, length);
        at += 6 + length;
        if (payload == "lead")
            line.leads = true;
        else if (line.leads)
            publish(payload, opcode);
        else if (opcode == wire::Opcode::binary)
            ++m_readings;
    }
}

void Floor::upgrade(Line& line, std::string_view head)
{
    constexpr std::string_view kName = "Sec-WebSocket-Key: ";
    const auto key = head.substr(head.find(kName) + kName.size(), 24);
    const auto answer = "HTTP/1.1 101 Switching Protocols\r\nUpgrade: websocket\r\nConnection: Upgrade\r\n"
                        "Sec-WebSocket-Protocol: voicehall.1\r\nSec-WebSocket-Accept: " +
                        net::acceptKey(key) + "\r\n\r\n";
    line.open = ::send(line.descriptor, answer.data(), answer.size(), MSG_NOSIGNAL) > 0;
}

void Floor::publish(std::string_view payload, wire::Opcode opcode)
{
    std::string frame;
    wire::appendFrame(frame, opcode, payload);
    for (const auto& line : m_lines) {
        if (!line->open || line->leads)
            continue;
        if (::send(line->descriptor, frame.data(), frame.size(), MSG_NOSIGNAL) > 0)
            ++m_frames;
        else
            ++m_refused;
    }
}

bool Floor::command()
{
    char buffer[64];
    if (::read(0, buffer, sizeof buffer) <= 0)
        return false;
    std::printf("stat frames=%llu sends=%llu readings=%llu skipped=%llu open=%zu\n", m_frames, m_frames, m_readings,
                m_refused, m_lines.size());
    std::fflush(stdout);
    return true;
}

} // namespace

int runFloorServer()
{
    return Floor().run();
}

} // namespace vh::bench
