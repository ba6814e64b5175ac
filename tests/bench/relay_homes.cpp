#include "tests/bench/relay_homes.h"

#include <charconv>
#include <cinttypes>
#include <cstdio>

namespace vh::bench
{

using net::WsClient;

namespace
{

std::int64_t clockNs()
{
    return std::chrono::steady_clock::now().time_since_epoch().count();
}

} // namespace

Stamp Stamp::now(std::uint32_t number)
{
    return {number, clockNs()};
}

std::string Stamp::text() const
{
    char buffer[kTextBytes + 1];
    std::snprintf(buffer, sizeof buffer, "%016" PRIx32 "%016" PRIx64, number, static_cast<std::uint64_t>(steadyNs));
    return {buffer, kTextBytes};
}

Stamp Stamp::of(std::string_view payload)
{
    Stamp stamp;
    if (payload.size() < kTextBytes)
        return stamp;
    std::uint64_t ns = 0;
    std::from_chars(payload.data(), payload.data() + 16, stamp.number, 16);
    std::from_chars(payload.data() + 16, payload.data() + 32, ns, 16);
    stamp.steadyNs = static_cast<std::int64_t>(ns);
    return stamp;
}

double Stamp::ageMs() const
{
    return static_cast<double>(clockNs() - steadyNs) / 1e6;
}

struct Homes::Home final : net::ClientHandler {
    explicit Home(Homes& all) : homes(all) {}
    ~Home() override = default;
    void onOpen(WsClient& client) override
    {
        homes.m_load.enterHome(client);
        if (++homes.m_in == homes.m_load.homes)
            homes.m_whenIn();
        else if (homes.m_in == homes.m_clients.size())
            homes.joinMore();
    }
    void onBinary(WsClient&, std::span<const std::uint8_t> payload) override
    {
        const auto stamp = Stamp::of({reinterpret_cast<const char*>(payload.data()), payload.size()});
        if (last > 0 && stamp.number > last + 1)
            homes.m_heard.lost += stamp.number - last - 1;
        last = stamp.number;
        homes.m_heard.soundMs.push_back(stamp.ageMs());
        if (onSound)
            onSound(stamp);
    }
    void onText(WsClient&, std::string_view text) override { homes.m_heard.placeMs.push_back(Stamp::of(text).ageMs()); }
    void onClosed(WsClient&, wire::CloseCode, std::string_view reason) override
    {
        if (++homes.m_heard.ended == 1)
            std::fprintf(stderr, "a home's line ended: %.*s\n", static_cast<int>(reason.size()), reason.data());
    }
    Homes& homes;
    std::uint32_t last = 0;
    std::function<void(const Stamp&)> onSound;
};

struct Homes::Leader final : net::ClientHandler {
    explicit Leader(Homes& all) : homes(all) {}
    ~Leader() override = default;
    void onOpen(WsClient& client) override
    {
        homes.m_load.enterLeader(client);
        homes.joinMore();
    }
    Homes& homes;
};

Homes::Homes(net::Loop& loop, Load load) : m_loop(loop), m_load(std::move(load)) {}

Homes::~Homes() = default;

void Homes::join(std::function<void()> whenAllAreIn)
{
    m_whenIn = std::move(whenAllAreIn);
    m_leader = WsClient::connect(m_loop, m_load.options, std::make_shared<Leader>(*this));
}

void Homes::joinMore()
{
    constexpr std::size_t kAtOnce = 100;
    const auto until = std::min(m_load.homes, m_clients.size() + kAtOnce);
    while (m_clients.size() < until) {
        m_homes.push_back(std::make_shared<Home>(*this));
        m_clients.push_back(WsClient::connect(m_loop, m_load.options, m_homes.back()));
    }
    if (m_load.homes == 0)
        m_whenIn();
}

void Homes::start()
{
    const auto every = [this](double perSecond, auto task) {
        return perSecond > 0 ? m_loop.every(std::chrono::nanoseconds(static_cast<std::int64_t>(1e9 / perSecond)), task)
                             : net::Loop::Timer();
    };
    m_soundTimer = every(m_load.framesPerSecond, [this] { sendSound(); });
    m_placeTimer =
        every(m_load.placesPerSecond, [this] { m_load.sendPlace(*m_leader, Stamp::now(++m_placeNumber).text()); });
    m_lastReadings = std::chrono::steady_clock::now();
    m_readingTimer = every(m_load.readingsPerSecond > 0 ? 1000 : 0, [this] { sendReadings(); });
}

void Homes::stop()
{
    m_soundTimer.cancel();
    m_placeTimer.cancel();
    m_readingTimer.cancel();
}

void Homes::begin()
{
    m_heard = {};
    m_heard.soundMs.reserve(1'000'000);
}

void Homes::watch(std::size_t index, std::function<void(const Stamp&)> onSound)
{
    m_homes[index]->onSound = std::move(onSound);
}

void Homes::sendSound()
{
    auto payload = Stamp::now(++m_number).text();
    payload.resize(m_load.frameBytes, 's');
    m_load.sendSound(*m_leader, payload);
}

/// Spread evenly over time and over the homes, as in a class.
void Homes::sendReadings()
{
    const auto now = std::chrono::steady_clock::now();
    const std::chrono::duration<double> gone = now - std::exchange(m_lastReadings, now);
    m_readingsDue += gone.count() * m_load.readingsPerSecond * static_cast<double>(m_clients.size());
    static const std::string reading(m_load.readingBytes, 'r');
    for (; m_readingsDue >= 1; m_readingsDue -= 1) {
        m_clients[m_nextReader]->sendBinary(reading);
        m_nextReader = (m_nextReader + 1) % m_clients.size();
        ++m_heard.readingsSent;
    }
}

} // namespace vh::bench
