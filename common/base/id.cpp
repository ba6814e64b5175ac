#include "common/base/id.h"

#include "common/base/sodium_ready.h"
#include "common/base/text.h"

#include <algorithm>

namespace vh
{

Bits128 randomBits128()
{
    readySodium();
    Bits128 bits;
    randombytes_buf(bits.bytes.data(), bits.bytes.size());
    return bits;
}

std::string toHex(const Bits128& bits)
{
    return hexOf(bits.bytes);
}

std::optional<Bits128> bits128FromHex(std::string_view hex)
{
    Bits128 bits;
    const auto bytes = bytesOfHex(hex);
    if (!bytes || bytes->size() != bits.bytes.size())
        return std::nullopt;
    std::copy(bytes->begin(), bytes->end(), bits.bytes.begin());
    return bits;
}

} // namespace vh
