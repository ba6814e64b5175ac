// Links and codes as people paste and type them: a link that is written and read the same, or words about what is
// wrong.
#include "common/wire/join_link.h"

#include <cstdlib>

using namespace vh::wire;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    if (const auto code = normaliseCode(text); code && normaliseCode(spacedCode(*code)) != *code)
        std::abort();
    const auto link = parseJoinLink(text);
    if (!link) {
        if (link.error().message.empty())
            std::abort();
        return 0;
    }
    if (parseJoinLink(format(*link)) != *link)
        std::abort();
    return 0;
}
