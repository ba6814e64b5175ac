#pragma once
// Text and bytes: hexadecimal, UTF-8 validity, and what may be shown on a screen.
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace vh
{

std::string hexOf(std::span<const std::uint8_t> bytes);
/// Pairs of hexadecimal digits of either case; nothing for anything else.
std::optional<std::vector<std::uint8_t>> bytesOfHex(std::string_view hex);

/// True for well-formed UTF-8 (RFC 3629: no overlong forms, no surrogates, nothing above U+10FFFF).
bool isUtf8(std::string_view text);

/// Number of code points in well-formed UTF-8.
std::size_t codePointCount(std::string_view text);

/// The code points of well-formed UTF-8; what is not UTF-8 ends the list.
std::u32string codePointsOf(std::string_view text);

/// A line fit to be shown: well-formed UTF-8 without control characters (C0 except, where allowed, '\n'; DEL; C1),
/// without bidirectional embeddings, overrides and isolates (U+202A-202E, U+2066-2069), outer space removed.
/// Nothing when the text is not UTF-8, is empty after cleaning, or has more than `maxCodePoints`.
enum class LineBreaks { remove, keep };
std::optional<std::string> cleanLine(std::string_view text, std::size_t maxCodePoints,
                                     LineBreaks lineBreaks = LineBreaks::remove);

} // namespace vh
