#pragma once
// Random 128-bit identities, one type for each kind of thing so that they cannot be mixed up. Written as 32
// lower-case hexadecimal digits.
#include <array>
#include <compare>
#include <cstdint>
#include <cstring>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace vh
{

struct Bits128 {
    std::array<std::uint8_t, 16> bytes{};
    // NOLINTNEXTLINE(modernize-use-nullptr): a false alarm of LLVM 14 about <=>
    friend auto operator<=>(const Bits128&, const Bits128&) = default;
};

/// 16 bytes from the system's random source (libsodium). Any thread.
Bits128 randomBits128();
std::string toHex(const Bits128& bits);
/// Exactly 32 hexadecimal digits of either case, else nothing.
std::optional<Bits128> bits128FromHex(std::string_view hex);

template <class Tag>
struct Id {
    Bits128 bits;

    static Id random() { return Id{randomBits128()}; }
    static std::optional<Id> fromHex(std::string_view hex)
    {
        auto bits = bits128FromHex(hex);
        return bits ? std::optional<Id>(Id{*bits}) : std::nullopt;
    }
    [[nodiscard]] std::string hex() const { return toHex(bits); }
    [[nodiscard]] bool isNull() const { return bits == Bits128{}; }
    // NOLINTNEXTLINE(modernize-use-nullptr): a false alarm of LLVM 14 about <=>
    friend auto operator<=>(const Id&, const Id&) = default;
};

using GroupId = Id<struct GroupTag>;
using PersonId = Id<struct PersonTag>;
using ClassId = Id<struct ClassTag>;
/// Made by a client for whatever it asks to be done once; unique per (person, id).
using RequestId = Id<struct RequestTag>;
/// Random per start of the relay: a cursor of another epoch means nothing.
using HallEpoch = Id<struct HallEpochTag>;

} // namespace vh

template <class Tag>
struct std::hash<vh::Id<Tag>> {
    std::size_t operator()(const vh::Id<Tag>& id) const noexcept
    {
        std::size_t value = 0; // random already: the first bytes are a hash
        std::memcpy(&value, id.bits.bytes.data(), sizeof value);
        return value;
    }
};
