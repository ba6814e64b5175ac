#pragma once
// What a device signs to say who it is: the same for all roles and doors. Source of the scheme: Ed25519 (RFC 8032) by
// libsodium; the relay's fresh nonce makes each signature good for one line only.
#include "common/wire/to_client.h"

#include <string>

namespace vh::wire
{

enum class Purpose : std::uint8_t { login, redeem, knock };

/// `subject` is the group's id in hex (login), the token in hex (redeem), or the normalised code (knock).
std::string loginText(Purpose purpose, std::string_view subject, const Bytes<32>& nonce, Role role);

struct KeyPair {
    Key publicKey{};
    Bytes<64> secretKey{};
};
KeyPair makeKeyPair();
Signature sign(const KeyPair& pair, std::string_view text);
bool verify(const Key& key, std::string_view text, const Signature& signature);

/// SHA-256 (FIPS 180-4) of bytes.
Hash sha256(std::string_view bytes);

} // namespace vh::wire
