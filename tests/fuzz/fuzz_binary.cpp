// The four binary messages: whatever comes, a value or an error; what is read is written as it came, but for bits that
// are not used yet.
#include "common/wire/binary.h"

#include <cstdlib>

using namespace vh::wire;

namespace
{
std::span<const std::uint8_t> bytesOf(const std::string& text)
{
    return {reinterpret_cast<const std::uint8_t*>(text.data()), text.size()};
}
void mustHold(bool right)
{
    if (!right)
        std::abort();
}
} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    const std::span frame(data, size);
    (void)binaryTypeOf(frame);
    if (const auto reading = decodeReading(frame))
        mustHold(decodeReading(bytesOf(encodeReading(*reading))) == *reading);
    if (const auto sound = decodeSound(frame)) {
        const std::string again = encodeSound(sound->head, sound->payload);
        mustHold(again.size() == size && again.substr(3) == std::string(frame.begin() + 3, frame.end()));
    }
    if (const auto part = decodePart(frame))
        mustHold(encodePart(part->hash, part->bytes).substr(3) == std::string(frame.begin() + 3, frame.end()));
    if (const auto roster = decodeRoster(frame)) {
        const auto again = decodeRoster(bytesOf(encodeRoster(*roster)));
        mustHold(again && again->whole == roster->whole && again->entries == roster->entries);
    }
    return 0;
}
