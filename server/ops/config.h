#pragma once
// How one relay is set up: from the command line and a configuration file, checked here in words before anything is
// opened. Values only.
#include "common/base/result.h"

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace vh::ops
{

/// How homes reach the relay; docs/operating.md says which to choose.
enum class Tls : std::uint8_t {
    certificate, ///< a public certificate, in files
    selfSigned,  ///< a key of the relay's own, made at first start; links carry its pin
    off,         ///< only behind a proxy on this machine: loopback or a Unix socket
};

struct Config {
    std::filesystem::path data = "voicehall-data"; ///< folder of the store and the relay's own key
    std::string address = "127.0.0.1";             ///< numeric
    std::uint16_t port = 7443;                     ///< 0: any free one
    std::string unixPath;                          ///< not empty: a Unix socket instead
    Tls tls = Tls::selfSigned;
    std::filesystem::path certificate; ///< PEM, whole chain
    std::filesystem::path key;         ///< PEM
    std::vector<std::string> proxies;  ///< whose X-Forwarded-For is believed
    std::uint16_t opsPort = 0;         ///< /healthz and /metrics, on loopback; 0: any free one
    bool ops = true;
    unsigned loops = 1;
    std::size_t maxConnections = 10'000;
    std::string host;           ///< as links name it; empty: the address
    std::uint16_t linkPort = 0; ///< as links name it; 0: the port itself
    std::string logLevel = "info";
};

/// What is wrong with it, in words for whoever runs the relay; or nothing.
Result<void> check(const Config& config);

} // namespace vh::ops
