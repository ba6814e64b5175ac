#pragma once
// The short code that people type or hear over the telephone. Six signs out of 23 that cannot be mistaken for one
// another on paper or aloud: of a look-alike pair neither is used (0 O, 1 I L, 2 Z, 5 S, 8 B, U V). Guessing is slowed
// by the hall, which counts failures. Pure, but for the system's random source; any thread.
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace vh
{

inline constexpr std::string_view kJoinCodeSigns = "ACDEFGHJKMNPQRTWXY34679";
inline constexpr std::size_t kJoinCodeLength = 6;

/// Each sign drawn evenly from the system's random source.
std::string makeJoinCode();
/// What somebody typed, as it is stored and signed: upper case, without spaces, dashes and dots; nothing unless it is a
/// code.
std::optional<std::string> normaliseCode(std::string_view typed);
/// As it is read aloud: "K7M 42P".
std::string spacedCode(std::string_view code);

} // namespace vh
