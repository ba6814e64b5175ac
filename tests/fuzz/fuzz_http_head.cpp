// What a stranger sends first: accepted only as a whole upgrade request; every answer is a whole HTTP answer. Also the
// forwarded address taken from it, and the same bytes as a server's answer to our own client.
#include "server/net/forwarded.h"
#include "server/net/upgrade.h"

#include <cstdlib>

using namespace vh::net;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    const std::string_view head(reinterpret_cast<const char*>(data), size);
    const UpgradeRules rules{"/hall", "voicehall.1"};
    const UpgradeAnswer answer = answerUpgrade(head, rules);
    const bool switching = answer.response.starts_with("HTTP/1.1 101 ");
    if (switching != answer.accepted || answer.response.find("\r\n\r\n") == std::string::npos)
        std::abort();
    TrustedProxies proxies;
    proxies.local = true;
    proxies.ranges.push_back(*AddressRange::parse("10.0.0.0/8"));
    (void)clientAddress(kLocalPeer, answer.forwardedFor, proxies);
    (void)clientAddress("10.1.2.3", head, proxies);
    (void)AddressRange::parse(head);
    (void)checkUpgradeAnswer(head, rules, "dGhlIHNhbXBsZSBub25jZQ==");
    return 0;
}
