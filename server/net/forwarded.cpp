#include "server/net/forwarded.h"

#include <algorithm>
#include <arpa/inet.h>
#include <charconv>
#include <cstring>
#include <optional>

namespace vh::net
{

namespace
{

using Bytes = std::array<std::uint8_t, 16>;
constexpr unsigned kMappedBits = 96; ///< of ::ffff:0:0/96, RFC 4291 section 2.5.5.2

std::optional<Bytes> addressBytes(const std::string& text)
{
    Bytes bytes{};
    if (inet_pton(AF_INET6, text.c_str(), bytes.data()) == 1)
        return bytes;
    bytes = {};
    bytes[10] = bytes[11] = 0xFF;
    if (inet_pton(AF_INET, text.c_str(), bytes.data() + 12) == 1)
        return bytes;
    return std::nullopt;
}

std::string_view trimmed(std::string_view text)
{
    while (!text.empty() && (text.front() == ' ' || text.front() == '\t'))
        text.remove_prefix(1);
    while (!text.empty() && (text.back() == ' ' || text.back() == '\t'))
        text.remove_suffix(1);
    return text;
}

} // namespace

Result<AddressRange> AddressRange::parse(std::string_view text)
{
    const auto slash = text.find('/');
    const std::string address(text.substr(0, slash));
    const auto bytes = addressBytes(address);
    if (!bytes)
        return fail("bad-address", "“" + std::string(text) + "” is not an address or a range such as 10.0.0.0/8");
    AddressRange range;
    range.m_bytes = *bytes;
    if (slash == std::string_view::npos)
        return range;
    const bool isV4 = address.find(':') == std::string::npos;
    const auto digits = text.substr(slash + 1);
    unsigned bits = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), bits);
    if (error != std::errc{} || end != digits.data() + digits.size() || bits > (isV4 ? 32U : 128U))
        return fail("bad-address", "“" + std::string(text) + "” has a prefix length that does not fit");
    range.m_prefixBits = bits + (isV4 ? kMappedBits : 0);
    return range;
}

bool AddressRange::holds(std::string_view address) const
{
    const auto bytes = addressBytes(std::string(address));
    if (!bytes)
        return false;
    const auto whole = m_prefixBits / 8;
    if (!std::equal(m_bytes.begin(), m_bytes.begin() + whole, bytes->begin()))
        return false;
    const auto rest = m_prefixBits % 8;
    return rest == 0 || ((m_bytes[whole] ^ (*bytes)[whole]) >> (8 - rest)) == 0;
}

bool TrustedProxies::trusts(std::string_view address) const
{
    if (address == kLocalPeer)
        return local;
    return std::any_of(ranges.begin(), ranges.end(), [&](const auto& range) { return range.holds(address); });
}

std::string clientAddress(std::string_view peer, std::string_view forwardedFor, const TrustedProxies& proxies)
{
    std::string believed(peer);
    while (proxies.trusts(believed) && !forwardedFor.empty()) {
        const auto comma = forwardedFor.rfind(',');
        const auto hop = trimmed(comma == std::string_view::npos ? forwardedFor : forwardedFor.substr(comma + 1));
        forwardedFor = comma == std::string_view::npos ? std::string_view{} : forwardedFor.substr(0, comma);
        if (!addressBytes(std::string(hop)))
            break;
        believed = hop;
    }
    return believed;
}

} // namespace vh::net
