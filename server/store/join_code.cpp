#include "server/store/join_code.h"

#include <sodium.h>

namespace vh::store
{

std::string makeJoinCode()
{
    static const int ready = sodium_init();
    (void)ready;
    std::string code;
    while (code.size() < kJoinCodeLength)
        code += kJoinCodeSigns[randombytes_uniform(static_cast<std::uint32_t>(kJoinCodeSigns.size()))];
    return code;
}

std::optional<std::string> joinCodeFrom(std::string_view typed)
{
    std::string code;
    for (const char c : typed) {
        if (c == ' ' || c == '-' || c == '.')
            continue;
        const char upper = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
        if (kJoinCodeSigns.find(upper) == std::string_view::npos || code.size() == kJoinCodeLength)
            return std::nullopt;
        code += upper;
    }
    return code.size() == kJoinCodeLength ? std::optional(code) : std::nullopt;
}

} // namespace vh::store
