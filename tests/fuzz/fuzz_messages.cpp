// Text messages of both directions: whatever comes, a message or an error; what is read is written and read the same.
#include "common/wire/codec.h"

#include <cstdlib>

using namespace vh::wire;

namespace
{
template <class Decoded, class Decode>
void check(const Decoded& message, Decode decode)
{
    if (!message)
        return;
    const std::string text = std::visit([](const auto& each) { return encode(each); }, *message);
    const auto again = decode(text);
    if (!again || std::visit([](const auto& each) { return encode(each); }, *again) != text)
        std::abort();
}
} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    if (!vh::isUtf8(text))
        return 0; // the framing has refused it already
    check(decodeToRelay(text), decodeToRelay);
    check(decodeToClient(text), decodeToClient);
    return 0;
}
