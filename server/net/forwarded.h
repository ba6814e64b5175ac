#pragma once
// Whose address it is when a reverse proxy stands in front. X-Forwarded-For is believed from configured proxies only,
// read from the right: the first address that is not a configured proxy's is the client's. Pure values: any thread.
#include "common/base/result.h"

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace vh::net
{

/// An address or a range ("10.0.0.0/8"); IPv4 is kept as IPv4-mapped IPv6.
class AddressRange
{
public:
    static Result<AddressRange> parse(std::string_view text);
    [[nodiscard]] bool holds(std::string_view address) const;

private:
    std::array<std::uint8_t, 16> m_bytes{};
    unsigned m_prefixBits = 128;
};

/// How a peer on a Unix socket is called.
constexpr std::string_view kLocalPeer = "local";

struct TrustedProxies {
    std::vector<AddressRange> ranges;
    bool local = false; ///< whoever connects by the Unix socket is a proxy
    [[nodiscard]] bool trusts(std::string_view address) const;
};

/// The address to hold responsible. Text that is no address ends the walk at the last hop that is believed.
std::string clientAddress(std::string_view peer, std::string_view forwardedFor, const TrustedProxies& proxies);

} // namespace vh::net
