#include "common/base/text.h"

namespace vh
{

namespace
{

int hexDigit(char c)
{
    if (c >= '0' && c <= '9')
        return c - '0';
    if (c >= 'a' && c <= 'f')
        return c - 'a' + 10;
    if (c >= 'A' && c <= 'F')
        return c - 'A' + 10;
    return -1;
}

/// Takes one code point off the front; 0xFFFFFFFF when what stands there is not UTF-8.
constexpr char32_t kNotUtf8 = 0xFFFFFFFF;
char32_t takeCodePoint(std::string_view& text)
{
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned char first = byte(0);
    std::size_t length = 0;
    char32_t point = 0;
    char32_t least = 0;
    if (first < 0x80) {
        text.remove_prefix(1);
        return first;
    }
    if ((first & 0xE0) == 0xC0) {
        length = 2;
        point = first & 0x1F;
        least = 0x80;
    } else if ((first & 0xF0) == 0xE0) {
        length = 3;
        point = first & 0x0F;
        least = 0x800;
    } else if ((first & 0xF8) == 0xF0) {
        length = 4;
        point = first & 0x07;
        least = 0x10000;
    } else {
        return kNotUtf8;
    }
    if (text.size() < length)
        return kNotUtf8;
    for (std::size_t i = 1; i < length; ++i) {
        if ((byte(i) & 0xC0) != 0x80)
            return kNotUtf8;
        point = (point << 6) | (byte(i) & 0x3F);
    }
    if (point < least || point > 0x10FFFF || (point >= 0xD800 && point <= 0xDFFF))
        return kNotUtf8;
    text.remove_prefix(length);
    return point;
}

bool mayBeShown(char32_t point)
{
    const bool control = point < 0x20 || (point >= 0x7F && point < 0xA0);
    const bool direction = (point >= 0x202A && point <= 0x202E) || (point >= 0x2066 && point <= 0x2069);
    return !control && !direction && point != 0xFEFF;
}

} // namespace

std::string hexOf(std::span<const std::uint8_t> bytes)
{
    static constexpr char kDigits[] = "0123456789abcdef";
    std::string hex;
    hex.reserve(bytes.size() * 2);
    for (const std::uint8_t byte : bytes) {
        hex += kDigits[byte >> 4];
        hex += kDigits[byte & 15];
    }
    return hex;
}

std::optional<std::vector<std::uint8_t>> bytesOfHex(std::string_view hex)
{
    if (hex.size() % 2 != 0)
        return std::nullopt;
    std::vector<std::uint8_t> bytes;
    bytes.reserve(hex.size() / 2);
    for (std::size_t i = 0; i < hex.size(); i += 2) {
        const int high = hexDigit(hex[i]);
        const int low = hexDigit(hex[i + 1]);
        if (high < 0 || low < 0)
            return std::nullopt;
        bytes.push_back(static_cast<std::uint8_t>(high * 16 + low));
    }
    return bytes;
}

bool isUtf8(std::string_view text)
{
    while (!text.empty())
        if (takeCodePoint(text) == kNotUtf8)
            return false;
    return true;
}

std::size_t codePointCount(std::string_view text)
{
    std::size_t count = 0;
    for (const char c : text)
        count += (static_cast<unsigned char>(c) & 0xC0) != 0x80;
    return count;
}

std::u32string codePointsOf(std::string_view text)
{
    std::u32string points;
    while (!text.empty()) {
        const char32_t point = takeCodePoint(text);
        if (point == kNotUtf8)
            break;
        points += point;
    }
    return points;
}

std::optional<std::string> cleanLine(std::string_view text, std::size_t maxCodePoints, LineBreaks lineBreaks)
{
    std::string clean;
    std::string_view rest = text;
    while (!rest.empty()) {
        const std::string_view before = rest;
        const char32_t point = takeCodePoint(rest);
        if (point == kNotUtf8)
            return std::nullopt;
        if (point == '\n' || point == '\t')
            clean += (point == '\n' && lineBreaks == LineBreaks::keep) ? '\n' : ' ';
        else if (mayBeShown(point))
            clean.append(before.substr(0, before.size() - rest.size()));
    }
    const auto first = clean.find_first_not_of(" \n");
    if (first == std::string::npos)
        return std::nullopt;
    clean = clean.substr(first, clean.find_last_not_of(" \n") - first + 1);
    if (codePointCount(clean) > maxCodePoints)
        return std::nullopt;
    return clean;
}

} // namespace vh
