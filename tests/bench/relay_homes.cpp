#include "tests/bench/relay_homes.h"

#include <cstdio>

namespace vh::bench
{

using net::WsClient;

struct Homes::Home final : net::ClientHandler {
    Home(Homes& all, std::size_t ownNumber) : homes(all), number(ownNumber) {}
    ~Home() override = default;
    void onOpen(WsClient& client) override { cameIn(homes.m_load.dialect->homeOpened(client, number)); }
    void onBinary(WsClient&, std::span<const std::uint8_t> payload) override
    {
        const auto stamp = homes.m_load.dialect->soundStamp(payload);
        if (!stamp)
            return;
        if (last > 0 && stamp->number > last + 1)
            homes.m_heard.lost += stamp->number - last - 1;
        last = stamp->number;
        homes.m_heard.soundMs.push_back(stamp->ageMs());
        if (onSound)
            onSound(*stamp);
    }
    void onText(WsClient& client, std::string_view text) override
    {
        if (!isIn)
            cameIn(homes.m_load.dialect->homeText(client, number, text));
        else if (const auto stamp = homes.m_load.dialect->placeStamp(text))
            homes.m_heard.placeMs.push_back(stamp->ageMs());
    }
    void onClosed(WsClient&, wire::CloseCode, std::string_view reason) override
    {
        if (++homes.m_heard.ended == 1)
            std::fprintf(stderr, "a home's line ended: %.*s\n", static_cast<int>(reason.size()), reason.data());
    }
    void cameIn(bool now)
    {
        isIn = now;
        if (isIn)
            homes.homeIsIn();
    }
    Homes& homes;
    std::size_t number;
    bool isIn = false;
    std::uint32_t last = 0;
    std::function<void(const Stamp&)> onSound;
};

struct Homes::Leader final : net::ClientHandler {
    explicit Leader(Homes& all) : homes(all) {}
    ~Leader() override = default;
    void onOpen(WsClient& client) override { classRuns(homes.m_load.dialect->leaderOpened(client)); }
    void onText(WsClient& client, std::string_view text) override
    {
        classRuns(homes.m_load.dialect->leaderText(client, text));
    }
    void onBinary(WsClient&, std::span<const std::uint8_t> payload) override
    {
        homes.m_load.dialect->leaderBinary(payload);
    }
    void onClosed(WsClient&, wire::CloseCode, std::string_view reason) override
    {
        std::fprintf(stderr, "the leader's line ended: %.*s\n", static_cast<int>(reason.size()), reason.data());
    }
    void classRuns(bool now) const
    {
        if (now)
            homes.m_whenItRuns();
    }
    Homes& homes;
};

Homes::Homes(net::Loop& loop, Load load) : m_loop(loop), m_load(std::move(load)) {}

Homes::~Homes() = default;

void Homes::lead(std::function<void()> whenItRuns)
{
    m_whenItRuns = std::move(whenItRuns);
    m_leader = WsClient::connect(m_loop, m_load.options, std::make_shared<Leader>(*this));
    m_leadingTimer = m_loop.every(std::chrono::seconds(1), [this] {
        if (m_leader->isOpen())
            m_load.dialect->stillLeading(*m_leader);
    });
}

void Homes::join(std::function<void()> whenAllAreIn)
{
    m_whenIn = std::move(whenAllAreIn);
    joinMore();
}

void Homes::joinMore()
{
    constexpr std::size_t kAtOnce = 100;
    const auto until = std::min(m_load.homes, m_clients.size() + kAtOnce);
    while (m_clients.size() < until) {
        m_homes.push_back(std::make_shared<Home>(*this, m_homes.size()));
        m_clients.push_back(WsClient::connect(m_loop, m_load.options, m_homes.back()));
    }
}

void Homes::homeIsIn()
{
    if (++m_in == m_load.homes)
        m_whenIn();
    else if (m_in == m_clients.size())
        joinMore();
}

void Homes::start()
{
    const auto every = [this](double perSecond, auto task) {
        return perSecond > 0 ? m_loop.every(std::chrono::nanoseconds(static_cast<std::int64_t>(1e9 / perSecond)), task)
                             : net::Loop::Timer();
    };
    m_soundTimer =
        every(m_load.framesPerSecond, [this] { m_load.dialect->sendSound(*m_leader, Stamp::now(++m_number)); });
    m_placeTimer = every(m_load.placesPerSecond, [this] { m_load.dialect->changePlace(*m_leader); });
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

/// Spread evenly over time and over the homes, as in a class.
void Homes::sendReadings()
{
    const auto now = std::chrono::steady_clock::now();
    const std::chrono::duration<double> gone = now - std::exchange(m_lastReadings, now);
    m_readingsDue += gone.count() * m_load.readingsPerSecond * static_cast<double>(m_clients.size());
    const auto reading = m_load.dialect->reading();
    for (; m_readingsDue >= 1; m_readingsDue -= 1) {
        m_clients[m_nextReader]->sendBinary(reading);
        m_nextReader = (m_nextReader + 1) % m_clients.size();
        ++m_heard.readingsSent;
    }
}

} // namespace vh::bench
