#include "server/net/counters.h"

namespace vh::net
{

const char* nameOf(CloseReason reason)
{
    constexpr std::array<const char*, kCloseReasons> kNames{
        "by-peer",           "lost",        "by-us",      "too-slow", "too-big", "bad-frame", "bad-text", "silent",
        "handshake-timeout", "bad-request", "tls-failed", "stopping"};
    return kNames[static_cast<std::size_t>(reason)];
}

} // namespace vh::net
