#pragma once
// Base64 (RFC 4648 section 4, with padding), by libsodium. Pure; any thread.
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace vh
{

std::string base64Of(std::span<const std::uint8_t> bytes);
std::optional<std::vector<std::uint8_t>> bytesOfBase64(std::string_view text);

} // namespace vh
