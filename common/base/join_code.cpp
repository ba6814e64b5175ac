#include "common/base/join_code.h"

#include "common/base/sodium_ready.h"

namespace vh
{

std::string makeJoinCode()
{
    readySodium();
    std::string code;
    while (code.size() < kJoinCodeLength)
        code += kJoinCodeSigns[randombytes_uniform(static_cast<std::uint32_t>(kJoinCodeSigns.size()))];
    return code;
}

std::optional<std::string> normaliseCode(std::string_view typed)
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

std::string spacedCode(std::string_view code)
{
    const std::size_t half = code.size() / 2;
    return std::string(code.substr(0, half)) + " " + std::string(code.substr(half));
}

} // namespace vh
