#include "common/wire/join_link.h"

#include <charconv>
#include <sodium.h>

namespace vh::wire
{

namespace
{

constexpr std::string_view kScheme = "voicehall://";

tl::unexpected<Error> notALink(std::string why)
{
    return fail("link", std::move(why) + " Please copy the whole link again, from voicehall:// to its last letter.");
}

std::string_view takeUntil(std::string_view& text, char end)
{
    const auto at = text.find(end);
    const std::string_view part = text.substr(0, at);
    text.remove_prefix(at == std::string_view::npos ? text.size() : at + 1);
    return part;
}

/// HOST or HOST:PORT into the link. False when it is neither.
bool readHost(std::string_view text, JoinLink& link)
{
    std::string_view host = text;
    std::string_view port;
    const auto bracket = text.starts_with('[') ? text.find(']') : std::string_view::npos;
    const auto colon = text.find(':', bracket == std::string_view::npos ? 0 : bracket);
    if (colon != std::string_view::npos) {
        host = text.substr(0, colon);
        port = text.substr(colon + 1);
        const auto [end, error] = std::from_chars(port.data(), port.data() + port.size(), link.port);
        if (error != std::errc() || end != port.data() + port.size() || link.port == 0)
            return false;
    }
    for (const char c : host)
        if (!(std::isalnum(static_cast<unsigned char>(c)) || c == '.' || c == '-' || c == '[' || c == ']' || c == ':'))
            return false;
    constexpr std::size_t kLongestName = 253; // RFC 1035 section 2.3.4, less the bytes of length and end
    link.host = host;
    return !host.empty() && host.size() <= kLongestName;
}

} // namespace

std::string format(const JoinLink& link)
{
    std::string text(kScheme);
    text += link.host;
    if (link.port != 443)
        text += ":" + std::to_string(link.port);
    text += "/#";
    std::string parts;
    const auto add = [&parts](std::string_view name, const std::string& value) {
        parts += (parts.empty() ? "" : "&") + std::string(name) + "=" + value;
    };
    if (!link.code.empty())
        add("c", link.code);
    if (link.token)
        add("t", hexOf(*link.token));
    if (link.pin)
        add("k", base64Url(*link.pin));
    return text + parts;
}

Result<JoinLink> parseJoinLink(std::string_view text)
{
    while (!text.empty() && std::isspace(static_cast<unsigned char>(text.front())))
        text.remove_prefix(1);
    while (!text.empty() && std::isspace(static_cast<unsigned char>(text.back())))
        text.remove_suffix(1);
    if (text.size() > 500)
        return notALink("This is too long for a Voicehall link.");
    JoinLink link;
    const bool whole = text.starts_with(kScheme);
    if (whole)
        text.remove_prefix(kScheme.size());
    std::string_view rest = text;
    const std::string_view address = takeUntil(rest, '/');
    if (!readHost(address, link))
        return whole ? notALink("This link has no address in it.")
                     : tl::unexpected<Error>(
                           Error{"link", "This is not an address. It looks like hall.example.org.", {}});
    if (rest.starts_with('#'))
        rest.remove_prefix(1);
    else if (!rest.empty())
        return notALink("This link is cut or has something extra in it.");
    while (!rest.empty()) {
        std::string_view value = takeUntil(rest, '&');
        const std::string_view name = takeUntil(value, '=');
        if (name == "c") {
            const auto code = normaliseCode(value);
            if (!code)
                return notALink("The code in this link is not a code.");
            link.code = *code;
        } else if (name == "t") {
            const auto bytes = bytesOfHex(value);
            if (!bytes || bytes->size() != 16)
                return notALink("This link is cut.");
            std::copy(bytes->begin(), bytes->end(), link.token.emplace().begin());
        } else if (name == "k") {
            link.pin = hashFromBase64Url(value);
            if (!link.pin)
                return notALink("This link is cut: the relay's key is not whole.");
        } // other names: of a newer version, skipped
    }
    return link;
}

std::string base64Url(const Hash& hash)
{
    std::string text(sodium_base64_encoded_len(hash.size(), sodium_base64_VARIANT_URLSAFE_NO_PADDING), '\0');
    sodium_bin2base64(text.data(), text.size(), hash.data(), hash.size(), sodium_base64_VARIANT_URLSAFE_NO_PADDING);
    text.pop_back(); // the terminating zero
    return text;
}

std::optional<Hash> hashFromBase64Url(std::string_view text)
{
    Hash hash{};
    std::size_t length = 0;
    if (sodium_base642bin(hash.data(), hash.size(), text.data(), text.size(), nullptr, &length, nullptr,
                          sodium_base64_VARIANT_URLSAFE_NO_PADDING) != 0 ||
        length != hash.size())
        return std::nullopt;
    return hash;
}

} // namespace vh::wire
