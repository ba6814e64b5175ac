#include "common/wire/login_text.h"

#include "common/base/sodium_ready.h"

namespace vh::wire
{

namespace
{
const unsigned char* bytesOf(std::string_view text)
{
    return reinterpret_cast<const unsigned char*>(text.data());
}
} // namespace

std::string loginText(Purpose purpose, std::string_view subject, const Bytes<32>& nonce, Role role)
{
    static constexpr std::array<std::string_view, 3> kPurposes{"login", "redeem", "knock"};
    const std::string nonceHex = hexOf(nonce);
    std::string text(kSubprotocol);
    for (const std::string_view part :
         {kPurposes[static_cast<std::size_t>(purpose)], subject, std::string_view(nonceHex),
          WireNames<Role>::kNames[static_cast<std::size_t>(role)]}) {
        text += '\n';
        text += part;
    }
    return text;
}

KeyPair makeKeyPair()
{
    KeyPair pair;
    readySodium();
    crypto_sign_keypair(pair.publicKey.data(), pair.secretKey.data());
    return pair;
}

Signature sign(const KeyPair& pair, std::string_view text)
{
    Signature signature{};
    crypto_sign_detached(signature.data(), nullptr, bytesOf(text), text.size(), pair.secretKey.data());
    return signature;
}

bool verify(const Key& key, std::string_view text, const Signature& signature)
{
    readySodium();
    return crypto_sign_verify_detached(signature.data(), bytesOf(text), text.size(), key.data()) == 0;
}

Hash sha256(std::string_view bytes)
{
    Hash hash{};
    crypto_hash_sha256(hash.data(), bytesOf(bytes), bytes.size());
    return hash;
}

} // namespace vh::wire
