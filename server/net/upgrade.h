#pragma once
// The HTTP head of a WebSocket (RFC 6455 section 4): checked and answered by the server, made and checked by the
// client. Pure text in, text out. The parser is Boost.Beast's, in one .cpp only.
#include <optional>
#include <string>
#include <string_view>

namespace vh::net
{

struct UpgradeRules {
    std::string path = "/voicehall";
    std::string subprotocol = "voicehall.1";
};

struct UpgradeAnswer {
    bool accepted = false;
    std::string response;     ///< to be written as it is; when not accepted, the connection closes after it
    std::string forwardedFor; ///< every X-Forwarded-For line, joined by commas; to be believed only from a proxy
};

/// `head`: the request up to and including its empty line.
UpgradeAnswer answerUpgrade(std::string_view head, const UpgradeRules& rules);
/// 431 for a head that is too large.
std::string tooLargeAnswer();

/// A request with a fresh random key; `key` receives it.
std::string upgradeRequest(const UpgradeRules& rules, std::string_view host, std::string& key);
/// Nothing when the server accepted as the RFC and the rules ask; otherwise what is wrong.
std::optional<std::string> checkUpgradeAnswer(std::string_view head, const UpgradeRules& rules, std::string_view key);

/// Sec-WebSocket-Accept for a key (section 4.2.2, step 5).
std::string acceptKey(std::string_view key);

} // namespace vh::net
