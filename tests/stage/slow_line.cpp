#include "tests/stage/slow_line.h"

#include <array>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/write.hpp>
#include <chrono>
#include <deque>
#include <thread>
#include <vector>

namespace vh::stage
{

namespace asio = boost::asio;
using asio::ip::tcp;
using Steady = std::chrono::steady_clock;

namespace
{
constexpr std::size_t kMostWaiting = 4'000'000;

struct Pair {
    explicit Pair(asio::io_context& loop) : client(loop), server(loop) {}
    tcp::socket client;
    tcp::socket server;
};

/// One direction of one connection: reads, keeps it for its time, writes it on.
class Way : public std::enable_shared_from_this<Way>
{
public:
    Way(asio::io_context& loop, std::shared_ptr<Pair> pair, tcp::socket& from, tcp::socket& to, LineModel model,
        Steady::time_point start)
        : m_pair(std::move(pair)), m_from(from), m_to(to), m_model(model), m_start(start), m_timer(loop)
    {
    }
    void read()
    {
        m_reading = true;
        m_from.async_read_some(asio::buffer(m_bytes), [self = shared_from_this()](auto error, std::size_t count) {
            self->m_reading = false;
            self->came(error ? 0 : count);
        });
    }

private:
    struct Waiting {
        Steady::time_point until;
        std::vector<char> bytes; ///< none: the end
    };

    void came(std::size_t count)
    {
        const std::chrono::duration<double, std::milli> now = Steady::now() - m_start;
        const double at = m_model.arrivalOf(now.count()).value_or(now.count());
        m_way.push_back(
            {m_start + std::chrono::duration_cast<Steady::duration>(std::chrono::duration<double, std::milli>(at)),
             {m_bytes.begin(), m_bytes.begin() + static_cast<std::ptrdiff_t>(count)}});
        m_waiting += count;
        m_ended = count == 0;
        if (m_way.size() == 1)
            waitForFirst();
        goOn();
    }
    void goOn()
    {
        if (!m_reading && !m_ended && m_waiting < kMostWaiting)
            read();
    }
    void waitForFirst()
    {
        m_timer.expires_at(m_way.front().until);
        m_timer.async_wait([self = shared_from_this()](auto) { self->writeFirst(); });
    }
    void writeFirst()
    {
        if (m_way.front().bytes.empty()) {
            boost::system::error_code ignored;
            m_to.shutdown(tcp::socket::shutdown_send, ignored);
            return;
        }
        asio::async_write(m_to, asio::buffer(m_way.front().bytes),
                          [self = shared_from_this()](auto error, std::size_t) { self->written(!error); });
    }
    void written(bool fine)
    {
        if (!fine) { // nobody listens there any more
            boost::system::error_code ignored;
            m_from.close(ignored);
            return;
        }
        m_waiting -= m_way.front().bytes.size();
        m_way.pop_front();
        goOn();
        if (!m_way.empty())
            waitForFirst();
    }

    std::shared_ptr<Pair> m_pair;
    tcp::socket& m_from;
    tcp::socket& m_to;
    LineModel m_model;
    Steady::time_point m_start;
    asio::steady_timer m_timer;
    std::array<char, 16'384> m_bytes{};
    std::deque<Waiting> m_way;
    std::size_t m_waiting = 0;
    bool m_reading = false;
    bool m_ended = false;
};
} // namespace

class SlowLine::Impl
{
public:
    Impl(std::uint16_t toPort, const LineTraits& traits, std::uint64_t seed)
        : m_to(asio::ip::address_v4::loopback(), toPort), m_traits(traits), m_seed(seed),
          m_listener(m_loop, tcp::endpoint(asio::ip::address_v4::loopback(), 0)),
          m_port(m_listener.local_endpoint().port())
    {
        accept();
        m_thread = std::thread([this] { m_loop.run(); });
    }
    ~Impl()
    {
        m_loop.stop();
        m_thread.join();
    }
    [[nodiscard]] std::uint16_t port() const { return m_port; }

private:
    void accept()
    {
        auto pair = std::make_shared<Pair>(m_loop);
        m_listener.async_accept(pair->client, [this, pair](auto error) {
            if (error)
                return;
            pair->server.async_connect(m_to, [this, pair](auto failed) {
                if (!failed)
                    carry(pair);
            });
            accept();
        });
    }
    void carry(const std::shared_ptr<Pair>& pair)
    {
        for (tcp::socket* socket : {&pair->client, &pair->server})
            socket->set_option(tcp::no_delay(true));
        std::make_shared<Way>(m_loop, pair, pair->client, pair->server, LineModel(m_traits, m_seed++), m_start)->read();
        std::make_shared<Way>(m_loop, pair, pair->server, pair->client, LineModel(m_traits, m_seed++), m_start)->read();
    }

    asio::io_context m_loop;
    tcp::endpoint m_to;
    LineTraits m_traits;
    std::uint64_t m_seed;
    Steady::time_point m_start = Steady::now();
    tcp::acceptor m_listener;
    std::uint16_t m_port;
    std::thread m_thread;
};

SlowLine::SlowLine(std::uint16_t toPort, const LineTraits& traits, std::uint64_t seed)
    : m_impl(std::make_unique<Impl>(toPort, traits, seed))
{
}
SlowLine::~SlowLine() = default;

std::uint16_t SlowLine::port() const
{
    return m_impl->port();
}

} // namespace vh::stage
