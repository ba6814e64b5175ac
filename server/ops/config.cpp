#include "server/ops/config.h"

#include "server/net/forwarded.h"

#include <arpa/inet.h>

namespace vh::ops
{

namespace
{

bool isLoopback(const std::string& address)
{
    in_addr v4{};
    if (inet_pton(AF_INET, address.c_str(), &v4) == 1)
        return (ntohl(v4.s_addr) >> 24) == 127;
    in6_addr v6{};
    return inet_pton(AF_INET6, address.c_str(), &v6) == 1 && IN6_IS_ADDR_LOOPBACK(&v6);
}

bool isAddress(const std::string& address)
{
    in_addr v4{};
    in6_addr v6{};
    return inet_pton(AF_INET, address.c_str(), &v4) == 1 || inet_pton(AF_INET6, address.c_str(), &v6) == 1;
}

} // namespace

Result<void> check(const Config& config)
{
    if (config.unixPath.empty() && !isAddress(config.address))
        return fail("config", "address must be a numeric address, such as 0.0.0.0 or ::", "address");
    if (config.tls == Tls::off && config.unixPath.empty() && !isLoopback(config.address))
        return fail("config",
                    "without TLS the relay listens on loopback or a Unix socket only, behind a proxy; choose "
                    "tls = \"certificate\" or \"self-signed\" to listen on " +
                        config.address,
                    "tls");
    if (config.tls == Tls::certificate) {
        for (const auto& [file, name] : {std::pair{config.certificate, "certificate"}, std::pair{config.key, "key"}})
            if (!std::filesystem::is_regular_file(file))
                return fail("config", "'" + file.string() + "' is not a file; it must hold PEM", name);
    }
    for (const std::string& proxy : config.proxies)
        if (!net::AddressRange::parse(proxy))
            return fail("config", "'" + proxy + "' is not an address or a range of addresses", "proxy");
    if (config.loops < 1 || config.loops > 64)
        return fail("config", "loops must be 1 to 64", "loops");
    return {};
}

} // namespace vh::ops
