#pragma once
// The link that people are given: voicehall://HOST[:PORT]/#c=CODE&k=PIN, or t=TOKEN for a one-time link. Everything
// secret stands after the '#', so that it is never part of a request. PIN is the SHA-256 of the relay's public key
// (SubjectPublicKeyInfo, DER), base64url without padding; absent where the certificate is a public one.
// Also the four words. Pure; any thread.
#include "common/base/join_code.h"
#include "common/base/result.h"
#include "common/wire/to_relay.h"

#include <array>
#include <optional>
#include <string>
#include <string_view>

namespace vh::wire
{

struct JoinLink {
    std::string host; ///< name or address, IPv6 in brackets
    std::uint16_t port = 443;
    std::string code; ///< normalised, or empty
    std::optional<Token> token;
    std::optional<Hash> pin;
    friend bool operator==(const JoinLink&, const JoinLink&) = default;
};

std::string format(const JoinLink& link);
/// Reads a link, or what people type by hand: "host", "host:port". Says what is wrong in words for them.
Result<JoinLink> parseJoinLink(std::string_view text);

// The code in it, and how people write it.
using vh::normaliseCode;
using vh::spacedCode;

std::string base64Url(const Hash& hash);
std::optional<Hash> hashFromBase64Url(std::string_view text);

/// The same four words for everybody who sees the same key: 32 bits of Argon2id over the pin. The slow hash (0.1 s, 64
/// MiB) makes looking for another key with the same words cost some ten core-years. Takes that long: not on a GUI
/// thread.
std::array<std::string, 4> fourWords(const Hash& pin);
/// The list that they are taken from (docs/four-words.md).
std::string_view keyWord(std::uint8_t number);

} // namespace vh::wire
