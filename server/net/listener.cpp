#include "server/net/listener.h"

#include <arpa/inet.h>
#include <cerrno>
#include <cstring>
#include <netinet/in.h>
#include <netinet/tcp.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/un.h>
#include <unistd.h>

namespace vh::net
{

namespace
{

constexpr int kAcceptsInARow = 64;
constexpr int kBacklog = 4096; // the kernel caps it at net.core.somaxconn
constexpr std::chrono::milliseconds kRest{100};

tl::unexpected<Error> systemError(const std::string& what)
{
    return fail("cannot-listen", what + ": " + std::strerror(errno));
}

Result<sockaddr_storage> tcpAddress(const ListenAddress& address, socklen_t& size)
{
    sockaddr_storage storage{};
    auto* v4 = reinterpret_cast<sockaddr_in*>(&storage);
    auto* v6 = reinterpret_cast<sockaddr_in6*>(&storage);
    if (inet_pton(AF_INET, address.host.c_str(), &v4->sin_addr) == 1) {
        v4->sin_family = AF_INET;
        v4->sin_port = htons(address.port);
        size = sizeof *v4;
        return storage;
    }
    if (inet_pton(AF_INET6, address.host.c_str(), &v6->sin6_addr) == 1) {
        v6->sin6_family = AF_INET6;
        v6->sin6_port = htons(address.port);
        size = sizeof *v6;
        return storage;
    }
    return fail("bad-address", "“" + address.host + "” is not a numeric address");
}

Result<sockaddr_storage> unixAddress(const std::string& path, socklen_t& size)
{
    sockaddr_storage storage{};
    auto* local = reinterpret_cast<sockaddr_un*>(&storage);
    if (path.size() >= sizeof local->sun_path)
        return fail("bad-address", "The socket's path is too long: " + path);
    local->sun_family = AF_UNIX;
    std::memcpy(local->sun_path, path.c_str(), path.size() + 1);
    size = sizeof *local;
    return storage;
}

std::string addressText(const sockaddr_storage& peer)
{
    char text[INET6_ADDRSTRLEN] = "";
    if (peer.ss_family == AF_INET)
        inet_ntop(AF_INET, &reinterpret_cast<const sockaddr_in&>(peer).sin_addr, text, sizeof text);
    else if (peer.ss_family == AF_INET6)
        inet_ntop(AF_INET6, &reinterpret_cast<const sockaddr_in6&>(peer).sin6_addr, text, sizeof text);
    else
        return std::string(kLocalPeer);
    return text;
}

void setOption(int descriptor, int level, int name, int value)
{
    ::setsockopt(descriptor, level, name, &value, sizeof value);
}

bool isOutOfDescriptors(int error)
{
    return error == EMFILE || error == ENFILE || error == ENOBUFS || error == ENOMEM;
}

} // namespace

Result<std::unique_ptr<Listener>> Listener::open(Loop& loop, ListenerOptions options)
{
    const auto& path = options.address.unixPath;
    socklen_t size = 0;
    const auto address = path.empty() ? tcpAddress(options.address, size) : unixAddress(path, size);
    if (!address)
        return tl::unexpected(address.error());
    const int descriptor = ::socket(address->ss_family, SOCK_STREAM | SOCK_NONBLOCK | SOCK_CLOEXEC, 0);
    if (descriptor < 0)
        return systemError("No socket");
    std::unique_ptr<Listener> listener(new Listener(loop, std::move(options), descriptor));
    setOption(descriptor, SOL_SOCKET, SO_REUSEADDR, 1);
    struct stat found {
    };
    if (!listener->m_unixPath.empty() && ::lstat(listener->m_unixPath.c_str(), &found) == 0 && S_ISSOCK(found.st_mode))
        ::unlink(listener->m_unixPath.c_str()); // left behind by a run that was killed
    if (::bind(descriptor, reinterpret_cast<const sockaddr*>(&*address), size) != 0 ||
        ::listen(descriptor, kBacklog) != 0) {
        listener->m_unixPath.clear(); // not ours to remove
        return systemError("Cannot listen there");
    }
    sockaddr_storage bound{};
    socklen_t boundSize = sizeof bound;
    ::getsockname(descriptor, reinterpret_cast<sockaddr*>(&bound), &boundSize);
    if (bound.ss_family == AF_INET)
        listener->m_port = ntohs(reinterpret_cast<const sockaddr_in&>(bound).sin_port);
    else if (bound.ss_family == AF_INET6)
        listener->m_port = ntohs(reinterpret_cast<const sockaddr_in6&>(bound).sin6_port);
    if (!loop.poller().add(descriptor, *listener, EPOLLIN))
        return systemError("Cannot wait for connections");
    return listener;
}

Listener::Listener(Loop& loop, ListenerOptions options, int descriptor)
    : m_loop(loop), m_descriptor(descriptor), m_unixPath(std::move(options.address.unixPath)),
      m_maxConnections(options.maxConnections), m_setup(std::make_shared<ConnectionSetup>())
{
    m_setup->limits = options.limits;
    m_setup->rules = std::move(options.rules);
    m_setup->proxies = std::move(options.proxies);
    m_setup->tls = std::move(options.tls);
    m_setup->makeHandler = std::move(options.makeHandler);
}

Listener::~Listener()
{
    m_loop.poller().remove(m_descriptor, *this);
    ::close(m_descriptor);
    if (!m_unixPath.empty())
        ::unlink(m_unixPath.c_str());
}

void Listener::onReady(std::uint32_t /*events*/)
{
    for (int i = 0; i < kAcceptsInARow; ++i) {
        sockaddr_storage peer{};
        socklen_t size = sizeof peer;
        const int descriptor =
            ::accept4(m_descriptor, reinterpret_cast<sockaddr*>(&peer), &size, SOCK_NONBLOCK | SOCK_CLOEXEC);
        if (descriptor < 0) {
            if (isOutOfDescriptors(errno))
                rest();
            if (errno == ECONNABORTED || errno == EINTR)
                continue;
            return;
        }
        ++m_loop.counters().accepted;
        if (m_setup->alive.load(std::memory_order_relaxed) >= m_maxConnections) {
            ++m_loop.counters().refusedFull;
            ::close(descriptor);
            continue;
        }
        if (peer.ss_family == AF_INET || peer.ss_family == AF_INET6) {
            setOption(descriptor, IPPROTO_TCP, TCP_NODELAY, 1);
            setOption(descriptor, IPPROTO_TCP, TCP_NOTSENT_LOWAT, m_setup->limits.notSentLowWater);
        }
        if (m_setup->limits.sendBufferBytes > 0)
            setOption(descriptor, SOL_SOCKET, SO_SNDBUF, m_setup->limits.sendBufferBytes);
        std::make_shared<Connection>(m_loop, descriptor, addressText(peer), m_setup)->start();
    }
}

/// A listening socket stays readable while there is no descriptor for what waits in it: look away for a moment.
void Listener::rest()
{
    ++m_loop.counters().acceptPauses;
    m_loop.poller().change(m_descriptor, *this, 0);
    m_resting = m_loop.after(kRest, [this] { m_loop.poller().change(m_descriptor, *this, EPOLLIN); });
}

} // namespace vh::net
