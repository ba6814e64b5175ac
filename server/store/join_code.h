#pragma once
// The short code that people type or hear over the telephone. Six signs out of 23 that cannot be mistaken for one
// another on paper: neither of a look-alike pair is used (0 O, 1 I L, 2 Z, 5 S, 8 B, U V). Guessing is slowed by the
// hall, which counts failures. Thread: any.
#include <optional>
#include <string>
#include <string_view>

namespace vh::store
{

inline constexpr std::string_view kJoinCodeSigns = "ACDEFGHJKMNPQRTWXY34679";
inline constexpr std::size_t kJoinCodeLength = 6;

/// Each sign drawn evenly from the system's random source.
std::string makeJoinCode();
/// What somebody typed, as it is stored: upper case, without spaces, hyphens and dots; nothing when it cannot be a
/// code.
std::optional<std::string> joinCodeFrom(std::string_view typed);

} // namespace vh::store
