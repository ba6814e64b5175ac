#include "server/photos/remake.h"

#include <algorithm>
#include <array>

namespace vh::photos
{

namespace
{
constexpr std::array<std::uint8_t, 3> kJpegBegins{0xFF, 0xD8, 0xFF}; // ITU-T T.81, B.1.1.3: SOI, then a marker
constexpr std::array<std::uint8_t, 8> kPngBegins{0x89, 'P', 'N', 'G', '\r', '\n', 0x1A, '\n'}; // PNG, 5.2
/// Photographs at 85 show no loss to the eye (common practice); lower only where the bytes would be too many.
constexpr std::array<int, 4> kQualities{85, 75, 60, 40};

template <std::size_t N>
bool begins(std::span<const std::uint8_t> bytes, const std::array<std::uint8_t, N>& with)
{
    return bytes.size() >= N && std::equal(with.begin(), with.end(), bytes.begin());
}

bool makesSense(const Cut& cut)
{
    return cut.left >= 0 && cut.left < cut.right && cut.right <= 1 && cut.top >= 0 && cut.top < cut.bottom &&
           cut.bottom <= 1;
}

Result<Remade> written(const Picture& picture, Format format)
{
    Remade out{format, {picture.width, picture.height}, {}};
    if (format == Format::png) {
        out.bytes = writePng(picture);
        if (!out.bytes.empty() && out.bytes.size() <= kMostBytesOut)
            return out;
        out.format = Format::jpeg; // a photograph that was sent as PNG
    }
    for (const int quality : kQualities) {
        out.bytes = writeJpeg(picture, quality);
        if (!out.bytes.empty() && out.bytes.size() <= kMostBytesOut)
            return out;
    }
    return tl::unexpected<Error>(tooLarge());
}
} // namespace

Error unknown()
{
    return {"picture-unknown", "This is no picture that can be shown. Please send a JPEG or a PNG picture.", {}};
}

Error cutShort()
{
    return {"picture-cut-short",
            "The picture's file ends too early. Please send it again, or take another copy of it.",
            {}};
}

Error damaged()
{
    return {"picture-damaged", "The picture's file is damaged. Please open and save it once more, then send that.", {}};
}

Error tooLarge()
{
    return {"picture-too-large", "The picture is too large. Please send a smaller copy of it.", {}};
}

std::optional<Format> formatOf(std::span<const std::uint8_t> bytes)
{
    if (begins(bytes, kJpegBegins))
        return Format::jpeg;
    if (begins(bytes, kPngBegins))
        return Format::png;
    return std::nullopt;
}

Result<Remade> remake(std::span<const std::uint8_t> bytes, const Wish& wish)
{
    const std::optional<Format> format = formatOf(bytes);
    if (!format)
        return tl::unexpected<Error>(unknown());
    if (bytes.size() > kMostBytesIn)
        return tl::unexpected<Error>(tooLarge());
    if (!makesSense(wish.cut))
        return fail("cut-impossible", "Nothing would be left of the picture.", "cut");
    auto picture = *format == Format::jpeg ? readJpeg(bytes) : readPng(bytes);
    if (!picture)
        return tl::unexpected<Error>(picture.error());
    if (wish.cut != Cut{})
        *picture = cut(*picture, wish.cut);
    if (wish.quarterTurns % 4 != 0)
        *picture = turned(*picture, wish.quarterTurns);
    return written(*picture, *format);
}

} // namespace vh::photos
