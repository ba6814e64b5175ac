#include "server/ops/ops_port.h"

#include <boost/asio/ip/tcp.hpp>
#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/http.hpp>
#include <sys/socket.h>
#include <sys/time.h>
#include <unistd.h>

namespace vh::ops
{

namespace
{

namespace asio = boost::asio;
namespace http = boost::beast::http;

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
    m_thread.join();
    ::close(m_descriptor);
}

void OpsPort::serve()
{
    while (!m_stopping) {
        const int peer = accept4(m_descriptor, nullptr, nullptr, SOCK_CLOEXEC);
        if (peer < 0)
            continue;
        const timeval patience{2, 0};
        setsockopt(peer, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
        setsockopt(peer, SOL_SOCKET, SO_SNDTIMEO, &patience, sizeof patience);
        asio::io_context context;
        asio::ip::tcp::socket socket(context, asio::ip::tcp::v4(), peer);
        boost::system::error_code error;
        boost::beast::flat_buffer buffer(8 * 1024);
        http::request<http::empty_body> request;
        http::read(socket, buffer, request, error);
        if (!error)
            http::write(socket, answerTo(request, m_answers), error);
        socket.shutdown(asio::ip::tcp::socket::shutdown_both, error);
    }
}

} // namespace vh::ops
