// Anybody's bytes as a picture: refused in words, or made anew within the limits.
#include "server/photos/errand.h"

#include <cstdlib>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    using namespace vh::photos;
    const std::span bytes(data, size);
    const auto remade = remake(bytes, {static_cast<int>(size % 4), {}});
    if (remade && (remade->size.width > kEdge || remade->size.height > kEdge || remade->bytes.size() > kMostBytesOut))
        std::abort();
    if (!remade && remade.error().message.empty())
        std::abort();
    if (const auto answer = readAnswer(answerOf(remade)); answer.has_value() != remade.has_value())
        std::abort();
    (void)readAnswer(bytes);
    (void)readErrand(bytes);
    return 0;
}
