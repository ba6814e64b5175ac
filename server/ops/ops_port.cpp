#include "server/ops/ops_port.h"

#include <array>
#include <boost/asio/ip/tcp.hpp>
#include <boost/beast/http.hpp>
#include <poll.h>
#include <sstream>
#include <sys/socket.h>
#include <unistd.h>

namespace vh::ops
{

namespace
{

namespace asio = boost::asio;
namespace http = boost::beast::http;
using SteadyTime = std::chrono::steady_clock::time_point;

constexpr std::chrono::seconds kPatience{2};
constexpr std::size_t kHeadBytes = 8 * 1024;
constexpr int kPauseMs = 100;

http::response<http::string_body> answerTo(const http::request<http::empty_body>& request, const OpsAnswers& answers)
{
    http::response<http::string_body> response;
    response.version(request.version());
    response.keep_alive(false);
    response.set(http::field::content_type, "text/plain; version=0.0.4");
    if (request.method() != http::verb::get) {
        response.result(http::status::method_not_allowed);
    } else if (request.target() == "/healthz") {
        const bool well = answers.isWell();
        response.result(well ? http::status::ok : http::status::service_unavailable);
        response.body() = well ? "well\n" : "not well\n";
    } else if (request.target() == "/metrics") {
        response.body() = answers.metrics();
    } else {
        response.result(http::status::not_found);
        response.body() = "/healthz and /metrics\n";
    }
    response.prepare_payload();
    return response;
}

/// Waits until the peer is ready, at most until then.
bool isReady(int peer, short events, SteadyTime until)
{
    const auto left = std::chrono::ceil<std::chrono::milliseconds>(until - std::chrono::steady_clock::now()).count();
    pollfd waiting{peer, events, 0};
    return left > 0 && poll(&waiting, 1, static_cast<int>(left)) == 1;
}

/// One request and its answer, in kPatience altogether.
void answer(int peer, const OpsAnswers& answers)
{
    const SteadyTime until = std::chrono::steady_clock::now() + kPatience;
    http::request_parser<http::empty_body> parser;
    boost::system::error_code error;
    std::string head;
    while (!parser.is_done()) {
        std::array<char, 1024> bytes{};
        const ssize_t count = isReady(peer, POLLIN, until) ? recv(peer, bytes.data(), bytes.size(), 0) : 0;
        if (count <= 0 || head.size() + static_cast<std::size_t>(count) > kHeadBytes)
            return;
        head.append(bytes.data(), static_cast<std::size_t>(count));
        const std::size_t used = parser.put(asio::buffer(head), error);
        head.erase(0, used);
        if (error && error != http::error::need_more)
            return;
    }
    std::ostringstream text;
    text << answerTo(parser.get(), answers);
    const std::string out = text.str();
    for (std::size_t sent = 0; sent < out.size();) {
        const ssize_t count =
            isReady(peer, POLLOUT, until) ? send(peer, out.data() + sent, out.size() - sent, MSG_NOSIGNAL) : 0;
        if (count <= 0)
            return;
        sent += static_cast<std::size_t>(count);
    }
}

} // namespace

Result<std::unique_ptr<OpsPort>> OpsPort::open(std::uint16_t port, OpsAnswers answers)
{
    asio::io_context context;
    boost::system::error_code error;
    asio::ip::tcp::acceptor acceptor(context);
    const asio::ip::tcp::endpoint here(asio::ip::address_v4::loopback(), port);
    acceptor.open(here.protocol(), error);
    if (!error)
        acceptor.set_option(asio::socket_base::reuse_address(true), error);
    if (!error)
        acceptor.bind(here, error);
    if (!error)
        acceptor.listen(16, error);
    if (error)
        return fail("ops-port", "port " + std::to_string(port) + " for /healthz and /metrics: " + error.message());
    const std::uint16_t actual = acceptor.local_endpoint().port();
    return std::unique_ptr<OpsPort>(new OpsPort(acceptor.release(), actual, std::move(answers)));
}

OpsPort::OpsPort(int descriptor, std::uint16_t port, OpsAnswers answers)
    : m_descriptor(descriptor), m_port(port), m_answers(std::move(answers)), m_thread([this] { serve(); })
{
}

OpsPort::~OpsPort()
{
    m_stopping = true;
    shutdown(m_descriptor, SHUT_RDWR); // wakes the accept
    {
        const std::scoped_lock lock(m_peerMutex);
        if (m_peer >= 0)
            shutdown(m_peer, SHUT_RDWR); // and whoever is being served
    }
    m_thread.join();
    ::close(m_descriptor);
}

void OpsPort::serve()
{
    while (!m_stopping) {
        const int peer = accept4(m_descriptor, nullptr, nullptr, SOCK_CLOEXEC | SOCK_NONBLOCK);
        if (peer < 0) {
            if (!m_stopping) // out of descriptors, say: not in a circle
                poll(nullptr, 0, kPauseMs);
            continue;
        }
        setPeer(peer);
        if (!m_stopping)
            answer(peer, m_answers);
        shutdown(peer, SHUT_RDWR);
        setPeer(-1);
        ::close(peer);
    }
}

void OpsPort::setPeer(int peer)
{
    const std::scoped_lock lock(m_peerMutex);
    m_peer = peer;
}

} // namespace vh::ops
