#include "tests/bench/relay_dialect.h"

#include <charconv>
#include <chrono>
#include <cinttypes>
#include <cstdio>

namespace vh::bench
{

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

bool BareDialect::homeOpened(net::WsClient& client, std::size_t)
{
    client.sendText("home");
    return true;
}

bool BareDialect::leaderOpened(net::WsClient& client)
{
    client.sendText("lead");
    return true;
}

void BareDialect::sendSound(net::WsClient& leader, const Stamp& stamp)
{
    auto payload = stamp.text();
    payload.resize(kSoundMessageBytes, 's');
    leader.sendBinary(payload);
}

void BareDialect::changePlace(net::WsClient& leader)
{
    leader.sendText(Stamp::now(++m_places).text());
}

std::optional<Stamp> BareDialect::soundStamp(std::span<const std::uint8_t> binary)
{
    return Stamp::of({reinterpret_cast<const char*>(binary.data()), binary.size()});
}

} // namespace vh::bench
