#include "server/photos/remake.h"

#include <algorithm>
#include <array>

namespace vh::photos
{

namespace
{
/// Photographs at 85 show no loss to the eye (common practice); lower only where the bytes would be too many.
constexpr std::array<int, 3> kQualities{85, 75, 60};
/// And where that is not enough, smaller: px.
constexpr std::array<int, 4> kSmallerEdges{1280, 1024, 800, 640};

bool fits(const std::vector<std::uint8_t>& bytes)
{
    return !bytes.empty() && bytes.size() <= kMostBytesOut;
}

Picture smaller(const Picture& picture, int edge)
{
    const Size from{picture.width, picture.height};
    RowScaler scaler(from, within(from, edge));
    const std::size_t row = picture.rgb.size() / static_cast<std::size_t>(picture.height);
    for (std::size_t at = 0; at < picture.rgb.size(); at += row)
        scaler.push(std::span(picture.rgb).subspan(at, row));
    return scaler.take();
}

/// Empty if it does not fit at any quality.
std::vector<std::uint8_t> fittingJpeg(const Picture& picture)
{
    for (const int quality : kQualities)
        if (auto bytes = writeJpeg(picture, quality); fits(bytes))
            return bytes;
    return {};
}

Result<Remade> written(Picture picture, Format format)
{
    const auto done = [&](Format as, std::vector<std::uint8_t> bytes) {
        return Remade{as, {picture.width, picture.height}, std::move(bytes)};
    };
    if (format == Format::png)
        if (auto bytes = writePng(picture); fits(bytes))
            return done(Format::png, std::move(bytes));
    // A photograph that was sent as PNG becomes a JPEG.
    if (auto bytes = fittingJpeg(picture); fits(bytes))
        return done(Format::jpeg, std::move(bytes));
    for (const int edge : kSmallerEdges) {
        if (std::max(picture.width, picture.height) <= edge)
            continue;
        picture = smaller(picture, edge);
        if (auto bytes = fittingJpeg(picture); fits(bytes))
            return done(Format::jpeg, std::move(bytes));
    }
    return tl::unexpected<Error>(tooLarge());
}
} // namespace

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
    return written(std::move(*picture), *format);
}

} // namespace vh::photos
