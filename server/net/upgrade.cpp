#include "server/net/upgrade.h"

#include <algorithm>
#include <boost/asio/buffer.hpp>
#include <boost/beast/http/empty_body.hpp>
#include <boost/beast/http/parser.hpp>
#include <boost/beast/http/rfc7230.hpp>
#include <openssl/evp.h>
#include <openssl/rand.h>
#include <openssl/sha.h>
#include <span>

namespace vh::net
{

namespace
{

namespace beast = boost::beast;
namespace http = beast::http;
namespace asio = boost::asio;

constexpr std::uint32_t kHeadLimit = 64 * 1024; // ours is smaller and comes first

std::string base64(std::span<const unsigned char> bytes)
{
    std::string text((bytes.size() + 2) / 3 * 4 + 1, '\0'); // EVP writes a closing zero
    const int size =
        EVP_EncodeBlock(reinterpret_cast<unsigned char*>(text.data()), bytes.data(), static_cast<int>(bytes.size()));
    text.resize(static_cast<std::size_t>(size));
    return text;
}

bool holdsToken(beast::string_view list, beast::string_view token)
{
    return http::token_list(list).exists(token);
}

UpgradeAnswer refusal(std::string_view status, std::string_view words, std::string_view extraLines = {})
{
    UpgradeAnswer answer;
    answer.response = "HTTP/1.1 " + std::string(status) + "\r\nContent-Type: text/plain; charset=utf-8\r\n" +
                      std::string(extraLines) + "Content-Length: " + std::to_string(words.size()) +
                      "\r\nConnection: close\r\n\r\n" + std::string(words);
    return answer;
}

/// 16 random bytes in base64 (RFC 6455 section 4.1, item 7).
bool isKey(beast::string_view key)
{
    constexpr std::size_t kLength = 24;
    const auto isDigit = [](char c) {
        return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '+' || c == '/';
    };
    return key.size() == kLength && key.ends_with("==") && std::all_of(key.begin(), key.end() - 2, isDigit);
}

template <class Fields>
std::string joined(const Fields& fields, beast::string_view name)
{
    std::string all;
    const auto range = fields.equal_range(name);
    for (auto it = range.first; it != range.second; ++it) {
        if (!all.empty())
            all += ',';
        all.append(it->value().data(), it->value().size());
    }
    return all;
}

} // namespace

std::string acceptKey(std::string_view key)
{
    const auto text = std::string(key) + "258EAFA5-E914-47DA-95CA-C5AB0DC85B11"; // RFC 6455 section 1.3
    std::array<unsigned char, SHA_DIGEST_LENGTH> digest{};
    SHA1(reinterpret_cast<const unsigned char*>(text.data()), text.size(), digest.data());
    return base64(digest);
}

std::string tooLargeAnswer()
{
    return refusal("431 Request Header Fields Too Large", "The request is too large.\n").response;
}

UpgradeAnswer answerUpgrade(std::string_view head, const UpgradeRules& rules)
{
    http::request_parser<http::empty_body> parser;
    parser.header_limit(kHeadLimit);
    beast::error_code error;
    parser.put(asio::buffer(head.data(), head.size()), error);
    if (error || !parser.is_header_done())
        return refusal("400 Bad Request", "This is not an HTTP request.\n");
    const auto& request = parser.get();
    if (request.version() != 11 || request.count(http::field::host) != 1 ||
        request.count(http::field::transfer_encoding) > 0 || request.count(http::field::content_length) > 0)
        return refusal("400 Bad Request", "This is not a request we answer.\n");
    const auto target = request.target();
    if (target.substr(0, target.find('?')) != beast::string_view(rules.path))
        return refusal("404 Not Found", "There is nothing here.\n");
    if (request.method() != http::verb::get)
        return refusal("405 Method Not Allowed", "Only GET, for a WebSocket.\n", "Allow: GET\r\n");
    if (!holdsToken(request[http::field::connection], "upgrade") ||
        !holdsToken(request[http::field::upgrade], "websocket"))
        return refusal("426 Upgrade Required", "A Voicehall relay: please come with the app.\n",
                       "Upgrade: websocket\r\n");
    if (request[http::field::sec_websocket_version] != "13")
        return refusal("426 Upgrade Required", "Only WebSocket version 13.\n", "Sec-WebSocket-Version: 13\r\n");
    const auto key = request[http::field::sec_websocket_key];
    if (request.count(http::field::sec_websocket_key) != 1 || !isKey(key))
        return refusal("400 Bad Request", "The WebSocket key is wrong.\n");
    const auto offered = joined(request, "Sec-WebSocket-Protocol");
    if (!holdsToken(offered, rules.subprotocol))
        return refusal("400 Bad Request", "Only the subprotocol " + rules.subprotocol + ".\n");

    UpgradeAnswer answer;
    answer.accepted = true;
    answer.forwardedFor = joined(request, "X-Forwarded-For");
    answer.response = "HTTP/1.1 101 Switching Protocols\r\nUpgrade: websocket\r\nConnection: Upgrade\r\n"
                      "Sec-WebSocket-Accept: " +
                      acceptKey({key.data(), key.size()}) + "\r\nSec-WebSocket-Protocol: " + rules.subprotocol +
                      "\r\n\r\n";
    return answer;
}

std::string upgradeRequest(const UpgradeRules& rules, std::string_view host, std::string& key)
{
    std::array<unsigned char, 16> random{};
    RAND_bytes(random.data(), static_cast<int>(random.size()));
    key = base64(random);
    return "GET " + rules.path + " HTTP/1.1\r\nHost: " + std::string(host) +
           "\r\nUpgrade: websocket\r\nConnection: Upgrade\r\nSec-WebSocket-Version: 13\r\nSec-WebSocket-Key: " + key +
           "\r\nSec-WebSocket-Protocol: " + rules.subprotocol + "\r\n";
}

std::optional<std::string> checkUpgradeAnswer(std::string_view head, const UpgradeRules& rules, std::string_view key)
{
    http::response_parser<http::empty_body> parser;
    parser.header_limit(kHeadLimit);
    parser.skip(true); // whatever follows is not ours to read
    beast::error_code error;
    parser.put(asio::buffer(head.data(), head.size()), error);
    if (error || !parser.is_header_done())
        return "the answer is not HTTP";
    const auto& response = parser.get();
    if (response.result() != http::status::switching_protocols)
        return "the server answered " + std::to_string(response.result_int());
    if (!holdsToken(response[http::field::upgrade], "websocket") ||
        response["Sec-WebSocket-Accept"] != beast::string_view(acceptKey(key)))
        return "the server did not accept the WebSocket";
    if (response["Sec-WebSocket-Protocol"] != beast::string_view(rules.subprotocol))
        return "the server speaks another protocol";
    return std::nullopt;
}

} // namespace vh::net
